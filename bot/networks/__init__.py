"""One file a network; each only translates between its library and Drawbar."""

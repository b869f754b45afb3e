"""The networks that Drawbar is on; each only translates between its library and Drawbar."""

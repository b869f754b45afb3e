"""What Drawbar says: one function an occasion, from records to an Answer."""

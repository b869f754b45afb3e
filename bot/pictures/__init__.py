"""Pictures, drawn from the values that answers carry. How a picture looks is decided here alone."""

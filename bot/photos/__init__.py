"""Photos of scale tickets and pump receipts: from a picture's bytes to its words."""

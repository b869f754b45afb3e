"""The printable page: a trip, some days or a year on paper, worked out once for HTML and PDF."""

"""What the page's scripts ask the server for, as JSON."""

"""The local server and its save endpoint."""

"""One topic a file, one formula a function."""

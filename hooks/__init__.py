"""What stands between the lessons on disk and the pages: read, check, render, serve."""

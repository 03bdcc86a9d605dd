"""Lessons on disk: declared, read, checked, written. No pages, no MkDocs."""

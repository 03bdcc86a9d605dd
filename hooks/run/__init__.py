"""The words of `run.py`: set up, then do. The one room that knows all the others."""

"""The local server: pages from the newest built folder, and the endpoint that saves lessons.

It listens on this machine only. What builds and refreshes pages is handed in, so nothing here knows
how pages are made.
"""

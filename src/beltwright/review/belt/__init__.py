"""Questions about every belt: run, room, pulls, life."""

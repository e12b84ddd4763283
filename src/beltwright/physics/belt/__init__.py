"""The run of a belt, its room, its pulls and its life."""

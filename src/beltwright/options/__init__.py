"""What else could be bolted on: candidates, limits, ranking, where an idler may go."""

"""What the review says about rods between levers and arms."""

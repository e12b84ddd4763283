"""What every value of a build is called in the builder's words."""

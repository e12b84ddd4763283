"""Questions about what a drive showed: does it agree with the plan, and if not, why."""

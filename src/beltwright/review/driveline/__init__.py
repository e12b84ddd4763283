"""Questions about the driveline: ratios, speeds, the way round."""

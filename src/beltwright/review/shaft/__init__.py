"""Questions about hubs, shafts, axle and chain."""

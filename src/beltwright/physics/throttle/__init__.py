"""The throttle: levers that a sheathed cable joins, their travel, their springs, their friction."""

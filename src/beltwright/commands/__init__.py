"""The commands, one module each: `add_arguments(parser)` says what it takes, `run(given)` does it.

A command imports what is slow to load inside `run`, so that help stays quick. `run` gives the exit
code: 0 all well, 1 at least one `stop`, 2 the file cannot be used.
"""

"""How property tests run: no time is ever asserted, and a run in CI always tries the same cases."""

import os

from hypothesis import settings

settings.register_profile("steady", deadline=None, derandomize=bool(os.environ.get("CI")))
settings.load_profile("steady")

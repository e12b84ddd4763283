"""What every table of the build file has in common: frozen, and no unknown keys."""

from pydantic import BaseModel, ConfigDict


class Row(BaseModel):
    """One table of the build file."""

    # built with the first file that is read: the tables together, not each by itself before
    model_config = ConfigDict(
        frozen=True, extra="forbid", arbitrary_types_allowed=True, defer_build=True
    )

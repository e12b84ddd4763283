"""What a ground gave when it was tried, in place of the table's range."""

from pydantic import Field

from beltwright.build.fields import (
    Friction,
)
from beltwright.build.row import Row


class Ground(Row):
    """A ground that was tried: what it gives takes the place of the table's range."""

    name: str = Field(description="kind of ground", examples=["mown grass"])
    grip: Friction | None = Field(
        None, description="best thrust of a tyre over the load on it", examples=["0.5 ± 0.05"]
    )
    rolling: Friction | None = Field(
        None, description="rolling drag over the load", examples=["0.08 ± 0.01"]
    )

"""What cannot be measured from what was given, told so that the builder can take it again."""


class NotMeasuredError(Exception):
    """No value comes out of these readings; the message says why and what to do."""

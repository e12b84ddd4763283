"""The address of this machine on the local network, and the code to reach it as a picture."""

import io
import ipaddress
import socket

_NOWHERE = ("192.0.2.1", 9)
"""An address that no machine has (RFC 5737); a datagram socket that is only aimed sends nothing."""


def local_address() -> str | None:
    """This machine's address on the local network, None where it has none."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as aimed:
        try:
            aimed.connect(_NOWHERE)
            address = str(aimed.getsockname()[0])
        except OSError:
            return None
    found = ipaddress.ip_address(address)
    return address if found.is_private and not found.is_loopback else None


def qr_svg(address: str) -> str:
    """The address as a QR code (ISO/IEC 18004), drawn in the colour of the text around it."""
    import segno

    written = io.BytesIO()
    segno.make(address, error="m").save(
        written, kind="svg", border=4, dark="#000", light="#fff", xmldecl=False, omitsize=True
    )
    return written.getvalue().decode()


def qr_text(address: str) -> str:
    """The same for a terminal."""
    import segno

    written = io.StringIO()
    segno.make(address, error="m").terminal(out=written, compact=True)
    return written.getvalue()

"""Versions of the Debian packages a fixture was made with."""
import subprocess


def versions(*packages):
    out = subprocess.run(
        ["dpkg-query", "-W", "-f", "${Package} ${Version}\n", *packages], check=True, capture_output=True, text=True
    )
    return out.stdout.strip().split("\n")

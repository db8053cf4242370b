"""The door of a checkout: looks whether this Python is new enough, then makes all ready.

``app/start.sh``, ``app/package.sh`` and the scripts in ``tests/`` run this file with the system's
Python before anything is installed.  Any Python 3 since 3.4 can read it, so that one that
is too old says so in words: no newer syntax here, and nothing of the project is imported
before the version is known.  What comes behind the door is in ``app/start/checkout``.

Everything for people goes to standard error.  Exit codes of its own: 2 cannot be made
ready (with the reason and what to do), 130 interrupted.
"""

import os
import sys

OLDEST = (3, 11)
NEWER_PYTHONS = ("python3.13", "python3.12", "python3.11", "python3.14")
"""Names under which a second Python may stand beside one that is too old."""

ROOT = os.path.dirname(os.path.dirname(os.path.dirname(os.path.realpath(__file__))))


def main(words: "list[str]") -> int:
    """Do what ``words`` ask; see :func:`app.start.checkout.starting.start` for them.

    Returns:
        The exit code.  A Python that is too old is replaced by a newer one where there is
        one; then, as when the program is started, this does not return.
    """
    if sys.version_info < OLDEST:
        return go_on_with_newer_python(words)
    from app.start.checkout.starting import start  # noqa: PLC0415

    return start(words)


def go_on_with_newer_python(words: "list[str]") -> int:
    """Start again under a Python that is new enough; 2 and the reason where there is none."""
    import shutil  # noqa: PLC0415

    for name in NEWER_PYTHONS:
        newer = shutil.which(name)
        # What stands under such a name may be a stub that only says where to get the real one.
        if newer and runs(newer):
            os.execv(newer, [newer, "-I", os.path.realpath(__file__)] + words)  # noqa: RUF005
    print(
        "kneeline: Python {}.{} is too old: 3.11 or newer is needed.\n"
        "Ubuntu 22.04: sudo apt-get install python3.11 python3.11-venv\n"
        "macOS: brew install python@3.13, or the installer of python.org\n"
        "Then start again; it will be found.".format(*sys.version_info[:2]),
        file=sys.stderr,
    )
    return 2


def runs(python: str) -> bool:
    """Whether a command is a Python that is new enough."""
    import subprocess  # noqa: PLC0415

    question = "import sys; sys.exit(sys.version_info < {!r})".format(OLDEST)  # noqa: UP032
    return not subprocess.call(
        [python, "-I", "-c", question],
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )


if __name__ == "__main__":
    # Isolated as it runs (-I), Python looks for modules in neither this folder nor the present one.
    sys.path.insert(0, ROOT)
    try:
        sys.exit(main(sys.argv[1:]))
    except KeyboardInterrupt:
        # Interrupted before anything was begun.
        sys.exit(130)

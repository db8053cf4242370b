"""The work in hand: a session, and the document that its set-up belongs to.

Opening a document is a step of the session's history like any other, so that it
can be taken back; each step knows by number which document it belongs to.  What
is known of each document (its file, and what that held when it was last read or
written) stands here, and no window is needed for any of it.
"""

from __future__ import annotations

import os
from dataclasses import dataclass, replace
from pathlib import Path

from app.files.drafts import Draft
from app.files.file_kinds import SUFFIX
from app.files.png_setup import is_png
from app.files.recovery import Unsaved
from app.files.safe_files import (
    contents,
    file_errors,
    fingerprint_at,
    fingerprint_of,
    write_atomically,
)
from app.files.storage import SCHEMA, Document, as_copy, bytes_of, carrying, document_in
from app.rider.inputs import model
from app.rider.setup import DEMO, Setup, with_stance_of
from app.rider.sharing import without_rider
from app.session import Session


@dataclass(frozen=True, slots=True)
class Paper:
    """What is known of one document.

    Attributes:
        document: everything but the set-up in hand.
        saved: the set-up as the file holds it, or as it began; None where nothing
            like it was ever saved.
        path: its file; None for one that has none yet.
        fingerprint: of the file's bytes when they were last read or written.
        pictured: the set-up as a picture holds it, for want of a file.
    """

    document: Document
    saved: Setup | None
    path: Path | None = None
    fingerprint: str = ""
    pictured: Setup | None = None


class Work:
    """The set-up in hand and its file.

    Args:
        session: holds the set-up; its first step belongs to ``paper``.
        paper: the document that the session began with.

    Attributes:
        typed: what is typed in the window and not entered.
    """

    def __init__(self, session: Session, paper: Paper | None = None) -> None:
        self.session = session
        self.typed: tuple[Draft, ...] = ()
        self._papers = [paper or Paper(Document(session.setup), session.setup)]

    @property
    def paper(self) -> Paper:
        """The document that the set-up in hand belongs to."""
        return self._papers[self.session.source]

    @property
    def document(self) -> Document:
        """The document with the set-up in hand."""
        return replace(self.paper.document, setup=self.session.setup)

    @property
    def modified(self) -> bool:
        """Whether the set-up differs from what was saved, in a file or in a picture."""
        return self.session.setup not in (self.paper.saved, self.paper.pictured)

    @property
    def is_kept(self) -> bool:
        """Whether the set-up stands somewhere as it is: in its file, or in a picture."""
        setup, paper = self.session.setup, self.paper
        return setup == (paper.pictured if paper.path is None else paper.saved)

    @property
    def at_risk(self) -> bool:
        """Whether anything would be lost if the program ended now."""
        return self.modified or bool(self.typed)

    @property
    def read_only(self) -> bool:
        """Whether only a copy can be saved."""
        return self.paper.document.read_only

    @property
    def title(self) -> str:
        """What a window calls it: the file's name, or the set-up's."""
        path = self.paper.path
        return path.name if path is not None else self.session.setup.called or "Unnamed"

    # Opening

    def open(self, path: Path, what: str) -> None:
        """Make the set-up in a file the one in hand, as a step called ``what``.

        Raises:
            FileError: the file cannot be read, or holds no sound set-up.
        """
        self._take(what, paper_of(path))

    def begin_from(self, path: Path, what: str) -> None:
        """Begin a new document with the set-up in a file, which stays as it is.

        Raises:
            FileError: the file cannot be read, or holds no sound set-up.
        """
        setup = paper_of(path).document.setup
        self._take(what, Paper(Document(setup), setup), start=setup)

    def stand_as(self, path: Path, what: str) -> None:
        """Take stance, boots and posture from the set-up in a file, and keep all else.

        Raises:
            FileError: the file cannot be read, or holds no sound set-up.
        """
        point = paper_of(path).document.setup
        self.session.take(what, with_stance_of(self.session.setup, point), start=point)

    def recover(self, unsaved: Unsaved, what: str) -> None:
        """Make recovered work the one in hand; it counts as modified until it is saved."""
        self._take(what, Paper(unsaved.document, None, unsaved.path, unsaved.fingerprint))

    def _take(self, what: str, paper: Paper, start: Setup = DEMO) -> None:
        self._papers.append(paper)
        self.session.open(what, paper.document.setup, len(self._papers) - 1, start)

    # Saving

    def save(self, path: Path, over: str | None = None) -> int:
        """Write the work to a file, which becomes the one that it belongs to.

        Args:
            path: the file.
            over: fingerprint of what may be replaced there, "" for nothing; None for
                whatever stands there.

        Returns:
            How many other names of the file, in other folders, still hold what it held before.

        Raises:
            ChangedError: something else stands there than ``over``.
            FileError: nothing was written, and the work is in hand as before.
        """
        with file_errors("save", path):
            path = path.absolute()
            document = self._document_for(path)
            data = bytes_of(document)
        left = write_atomically(path, data, over=over)
        document = replace(document, schema=SCHEMA)
        saved = Paper(document, document.setup, path, fingerprint_of(data))
        self._papers[self.session.source] = saved
        for i, paper in enumerate(self._papers):
            # An earlier document may belong to the same file, which it now differs from.
            if paper.path is not None and _same_file(paper.path, path):
                self._papers[i] = saved
        return left

    def _document_for(self, path: Path) -> Document:
        """The document as it can be saved to a file.

        Another file keeps what this version does not know, but for a newer layout.
        """
        own = self.paper.path is not None and _same_file(self.paper.path, path)
        return as_copy(self.document) if self.read_only and not own else self.document

    @property
    def changed_on_disk(self) -> bool:
        """Whether the file holds something else than when it was last read or written."""
        path = self.paper.path
        if path is None:
            return False
        # Where it is gone or cannot be read, saving tells, or brings it back.
        return fingerprint_at(path) not in ("", None, self.paper.fingerprint)

    def inside(self, picture: bytes, setup: Setup, *, rider: bool = True) -> bytes:
        """A PNG picture of a set-up of this document; opening it brings the document back.

        Args:
            picture: the picture.
            setup: what it shows.
            rider: whether the rider goes along; else the bare stance comes back.

        Raises:
            RefusalError: the set-up could not be opened again.
        """
        whole = replace(self.paper.document, setup=setup)
        return carrying(picture, whole if rider else Document(without_rider(setup)))

    def know_picture(self, picture: bytes) -> None:
        """Take note of a picture that was written: with everything in it, the work is safe.

        What belongs to a file is saved by saving that.
        """
        paper = self.paper
        if paper.path is None and not self.read_only and is_png(picture):
            carried = document_in(picture)
            if carried.setup == self.session.setup:
                self._papers[self.session.source] = replace(paper, pictured=carried.setup)

    # Keeping

    @property
    def unsaved(self) -> Unsaved | None:
        """What to keep against a crash; None when there is nothing.

        No file can hold leg dimensions that contradict each other; from among
        those the latest step before them is kept.
        """
        if not self.at_risk:
            return None
        steps, source = self.session.steps[: self.session.at + 1], self.session.source
        for step in reversed(steps):
            if step.source == source and _sound(step.setup):
                document = replace(self.paper.document, setup=step.setup)
                return Unsaved(document, self.paper.path, self.paper.fingerprint, self.typed)
        return None


def paper_of(path: Path) -> Paper:
    """What a file holds, as a document just opened.

    A picture that carries a set-up begins a new document: saving must not put
    a set-up in the place of the picture.

    Raises:
        FileError: the file cannot be read, or holds no sound set-up.
    """
    data = contents(path)
    with file_errors("open", path):
        # The folder in which the program was started may go or change.
        path = path.absolute()
        document = document_in(data)
    if is_png(data):
        return Paper(document, document.setup)
    return Paper(document, document.setup, path, fingerprint_of(data))


def file_name_for(setup: Setup) -> str:
    """A file name to suggest for a set-up, without what some systems cannot take."""
    plain = "".join(c if c.isalnum() or c in " -_" else " " for c in setup.name)
    return (" ".join(plain.split())[:60] or "setup") + SUFFIX


def _sound(setup: Setup) -> bool:
    try:
        model(setup.inputs)
    except ValueError:
        return False
    return True


def _same_file(first: Path, second: Path) -> bool:
    return os.path.realpath(first) == os.path.realpath(second)

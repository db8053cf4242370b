"""Editing, saving, crashing and coming back in every order: nothing is lost beyond the promise.

The promise: after a crash the work is there as it was two seconds before, or
later; a file holds what was last saved to it, whole; and every step can be
undone and done again.
"""

import errno
import os
from pathlib import Path
from shutil import rmtree
from tempfile import mkdtemp

import pytest
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, precondition, rule

from app.files.recovery import Recovery
from app.files.safe_files import FileError
from app.files.storage import Document, opened, save
from app.rider.setup import Setup
from app.session import Session
from app.work import Work

FILES = ("a.json", "b.json")


class NothingLost(RuleBasedStateMachine):
    """A user, a program that may end at any moment, and what must still be there."""

    def __init__(self):
        super().__init__()
        self.folder = Path(mkdtemp(prefix="kneeline-test-"))
        self.on_disk = {}
        for name in FILES:
            self.on_disk[name] = Setup(name=name)
            save(self.folder / name, Document(self.on_disk[name]))
        self.start()

    def start(self):
        self.work = Work(Session())
        self.recovery = Recovery(self.folder / "recovery")
        self.history, self.at = [self.work.session.setup], 0
        self.promised = None

    def did(self):
        """A step was done: the history goes on from here."""
        setup = self.work.session.setup
        if setup != self.history[self.at]:
            self.history[self.at + 1 :] = [setup]
            self.at += 1

    # What the user does

    @rule(angle=st.integers(0, 90), foot=st.sampled_from(("front", "rear")))
    def edit(self, angle, foot):
        self.work.session.edit(**{f"{foot}_angle_deg": float(angle)})
        self.did()

    @rule(length=st.integers(400, 600))
    def drag(self, length):
        session = self.work.session
        session.begin_drag()
        for step in range(3):
            session.edit(stance_length_mm=float(length + step))
        session.end_drag()
        self.did()

    @rule()
    def put_the_knee_above_the_hip(self):
        self.work.session.edit(hip_height_mm=500.0, knee_height_mm=600.0)
        self.did()

    @rule(name=st.text(max_size=5))
    def rename(self, name):
        self.work.session.rename(name)
        self.did()

    @rule(words=st.text(max_size=5))
    def write_notes(self, words):
        visit, typed = object(), [words[:end] for end in range(len(words) + 1)]
        if typed != [self.work.session.setup.notes]:
            del self.history[self.at + 1 :]  # like a drag, also where it comes back to its start
        for text in typed:
            self.work.session.write_notes(text, visit)
        self.did()

    @precondition(lambda self: self.at > 0)
    @rule()
    def undo(self):
        self.work.session.undo()
        self.at -= 1

    @precondition(lambda self: self.at + 1 < len(self.history))
    @rule()
    def redo(self):
        self.work.session.redo()
        self.at += 1

    @rule(data=st.data())
    def jump(self, data):
        self.at = data.draw(st.integers(0, len(self.history) - 1))
        self.work.session.go_to(self.at)

    @rule(name=st.sampled_from(FILES))
    def open(self, name):
        self.work.open(self.folder / name, f"Open {name}")
        del self.history[self.at + 1 :]
        self.history.append(self.on_disk[name])
        self.at += 1
        assert not self.work.modified

    @rule(name=st.sampled_from(FILES))
    def save(self, name):
        if sound(self.work.session.setup):
            self.work.save(self.folder / name)
            self.on_disk[name] = self.work.session.setup
            assert not self.work.modified
        else:
            with pytest.raises(FileError, match="knee height"):
                self.work.save(self.folder / name)
            assert self.work.modified

    @rule(name=st.sampled_from(FILES), call=st.sampled_from(("write", "fsync", "replace", "open")))
    def fail_to_save(self, name, call):
        modified = self.work.modified
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(f"app.files.safe_files.os.{call}", full_disk)
            with pytest.raises(FileError):
                self.work.save(self.folder / name)
        assert self.work.modified is modified

    # What happens to the program

    @rule()
    def two_seconds_pass(self):
        unsaved = self.work.unsaved
        if unsaved is None:
            self.recovery.forget()
        else:
            self.recovery.keep(unsaved)
        self.promised = self.work.session.setup if self.work.modified else None
        self.until_then = tuple(self.history[: self.at + 1])

    @rule()
    def two_seconds_pass_with_a_full_disk(self):
        if self.work.unsaved is None:
            return
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr("app.files.safe_files.os.write", full_disk)
            with pytest.raises(FileError):
                self.recovery.keep(self.work.unsaved)

    @rule()
    def crash_and_come_back(self):
        if self.recovery._lock is not None:
            self.recovery._lock.release()
        promised = self.promised
        self.start()
        found = list(self.recovery.left_behind())
        if promised is None:
            assert not found
            return
        (left,) = found
        came_back = left.unsaved.document.setup
        # What no file can hold comes back as the latest step before it.
        sound_steps = [setup for setup in self.until_then if sound(setup)]
        assert came_back == (promised if sound(promised) else sound_steps[-1])
        self.work.recover(left.unsaved, "Recover")
        assert self.work.modified
        self.did_recover(came_back)
        left.lock.remove()

    def did_recover(self, setup):
        self.history.append(setup)
        self.at += 1
        self.two_seconds_pass()

    # What must always hold

    @invariant()
    def the_history_is_whole(self):
        assert [step.setup for step in self.work.session.steps] == self.history
        assert self.work.session.at == self.at

    @invariant()
    def files_hold_what_was_last_saved(self):
        for name, setup in self.on_disk.items():
            assert opened(self.folder / name).setup == setup
        assert not list(self.folder.glob(".kneeline-*"))

    @invariant()
    def a_star_stands_where_something_could_be_lost(self):
        path = self.work.paper.path
        if path is not None and not self.work.modified:
            assert opened(path).setup == self.work.session.setup
            assert not self.work.changed_on_disk

    def teardown(self):
        self.recovery.forget()
        rmtree(self.folder)


def full_disk(*_args, **_named):
    raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))


def sound(setup):
    return setup.inputs.left.knee_height_mm < setup.inputs.left.hip_height_mm


NothingLost.TestCase.settings = settings(max_examples=40, stateful_step_count=30)
TestNothingLost = NothingLost.TestCase

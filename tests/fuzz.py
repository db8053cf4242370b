"""Coverage-guided fuzzing of all that reads files, for as long as one likes.

It wants atheris, which the project does not: in a folder of its own,

    python3 -m venv /tmp/fuzz && /tmp/fuzz/bin/pip install atheris numpy
    PYTHONPATH=.:tests/helpers /tmp/fuzz/bin/python tests/fuzz.py setup 120 /tmp/fuzz/corpus

fuzzes set-ups for 120 seconds and keeps what led anywhere new.  The other targets are the
names in ``fuzz_targets.TARGETS``.  A find is written to a file and ends the run.
"""

from __future__ import annotations

import sys
from pathlib import Path
from random import Random

import atheris

with atheris.instrument_imports(include=["app", "geometry"]):
    from fuzz_targets import TARGETS, outcome, seeds
from fuzz_mutations import mutated


def main(target: str, seconds: str, folder: str) -> None:
    corpus = Path(folder) / target
    corpus.mkdir(parents=True, exist_ok=True)
    for i, seed in enumerate(seeds(target)):
        (corpus / f"seed-{i}").write_bytes(seed)
    words = corpus.parent / f"{target}.dict"
    words.write_text("\n".join(_dictionary(seeds(target))) + "\n", "latin-1")
    options = [f"-max_total_time={seconds}", "-max_len=12000", f"-dict={words}", "-timeout=20"]
    artifacts = f"-artifact_prefix={corpus.parent}/find-{target}-"
    atheris.Setup(
        [sys.argv[0], *options, artifacts, "-print_final_stats=1", str(corpus)],
        lambda data: outcome(target, data),
        custom_mutator=_mutator,
    )
    atheris.Fuzz()


def _mutator(data: bytes, longest: int, seed: int) -> bytes:
    """Half of what is tried is spoilt by its values, the rest by libFuzzer's own ways."""
    random = Random(seed)
    if random.random() < 0.5:
        return mutated(data, random)[:longest]
    return atheris.Mutate(data, longest)


def _dictionary(files: list[bytes]) -> list[str]:
    """The words of some files, and what JSON knows beside, as libFuzzer takes them."""
    found = {word for each in files for word in each.split() if len(word) < 40}
    odd = {b"1e999", b"-0.0", b"NaN", b"null", b"true", b"[[[[", b"\\ud800", b"\xef\xbb\xbf"}
    escaped = ("".join(f"\\x{byte:02x}" for byte in word) for word in sorted(found | odd))
    return [f'"{each}"' for each in escaped]


if __name__ == "__main__":
    if len(sys.argv) != 4 or sys.argv[1] not in TARGETS:
        sys.exit(__doc__)
    main(*sys.argv[1:])

"""Pieces that are kept: their names, what is read back, what a broken file or a full disk leaves. Our own rules."""

from __future__ import annotations

import errno
import tomllib
from pathlib import Path

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from tests.trainer.profile.faults import START, FaultyDisk, everything, practise
from trainer.profile.care import check_profile, show_profile
from trainer.profile.paths import PIECES_FILE, is_device
from trainer.profile.piece_names import clean_title, piece_name
from trainer.profile.pieces import KeptPiece, keep_piece, parse_pieces
from trainer.profile.store import Profile

SONG = KeptPiece("My Song", "my-song.txt", "2026-11-25", ("mark-picked/h", "tab-to-place/standard/3/0"), None, 2)
OTHER = KeptPiece('A "quoted" \\ title', "other.txt", "2026-11-26", (), "drop-d")
TEXT = "e|--0--|\r\nB|--é\x00--|\n"


def keep(home: Path, *pieces: KeptPiece, disk: FaultyDisk | None = None, text: str = TEXT) -> Profile:
    """A profile that keeps pieces."""
    profile = Profile.open(home, "me", write=True, disk=disk)
    profile.acquire(START)
    try:
        for piece in pieces:
            profile.keep_piece(piece, text)
    finally:
        profile.close(START)
    return profile


def test_what_was_kept_is_read_at_the_next_opening_text_and_all(tmp_path: Path) -> None:
    assert keep(tmp_path, SONG, OTHER).pieces == (SONG, OTHER)
    opened = Profile.open(tmp_path, "me")
    assert (opened.pieces, opened.problems) == ((SONG, OTHER), [])
    assert (opened.folder / "pieces" / "my-song.txt").read_bytes() == TEXT.encode()
    table = tomllib.loads((opened.folder / PIECES_FILE).read_text(encoding="utf-8"))  # not by our own reader
    assert table["format"] == 1
    assert [row["title"] for row in table["pieces"].values()] == [SONG.title, OTHER.title]
    assert table["pieces"]["my-song"] == {
        "order": 1, "title": "My Song", "file": "my-song.txt", "day": "2026-11-25", "items": list(SONG.items), "capo": 2
    }  # fmt: skip
    assert check_profile(tmp_path, "me") == []
    listed = [path.name for path, _ in show_profile(tmp_path, "me").files]
    assert {"pieces.toml", "my-song.txt", "other.txt"} <= set(listed)


def test_the_same_piece_again_takes_its_own_place(tmp_path: Path) -> None:
    keep(tmp_path, SONG, OTHER)
    longer = SONG._replace(items=(*SONG.items, "mark-picked/p"), day="2026-12-01")
    assert keep(tmp_path, longer, text="other").pieces == (longer, OTHER)
    assert (tmp_path / "profiles" / "me" / "pieces" / "my-song.txt").read_text(encoding="utf-8") == "other"


def test_somebody_may_edit_the_file(tmp_path: Path) -> None:
    path = keep(tmp_path, SONG, OTHER).folder / PIECES_FILE
    text = path.read_text(encoding="utf-8").replace('"order" = 1', "order = 3 # later").replace("My Song", "Mine")
    path.write_text(text, encoding="utf-8")
    opened = Profile.open(tmp_path, "me")
    assert (opened.pieces, opened.problems) == ((OTHER, SONG._replace(title="Mine")), [])


@pytest.mark.parametrize(
    "broken",
    [
        b"what?", b"\xff\xfe", b"format = 'one'", b"pieces = 3", b"format = 1\n[pieces.a]\norder = 1\n",
        b'[pieces.a]\norder = 1\ntitle = "a"\nfile = "../../x.txt"\nday = "2026-11-25"\nitems = []\n',
        b'[pieces.a]\norder = 1\ntitle = "a"\nfile = "a.txt"\nday = "2026-11-25"\nitems = "mark-picked/h"\n',
        b'[pieces.a]\norder = 1\ntitle = "a"\nfile = "a.txt"\nday = "2026-11-25"\nitems = [1]\n',
        b'[pieces.a]\norder = "one"\ntitle = "a"\nfile = "a.txt"\nday = "2026-11-25"\nitems = []\n',
        b'[pieces.a]\norder = 1\ntitle = "a"\nfile = "a.txt"\nday = "2026-11-25"\nitems = []\ncapo = "two"\n',
        b"[" * 5000, b"format = 2\n",
    ],
)  # fmt: skip
def test_a_broken_file_is_told_and_kept(tmp_path: Path, broken: bytes) -> None:
    path = practise(tmp_path, 3).folder / PIECES_FILE
    path.write_bytes(broken)
    before = everything(tmp_path)
    opened = Profile.open(tmp_path, "me")
    assert (opened.pieces, opened.ledger.events) == ((), 3)
    (problem,) = opened.problems
    assert (problem.severity, problem.file) == ("error", str(path))
    assert str(problem).isprintable()
    assert check_profile(tmp_path, "me") == [problem]
    assert everything(tmp_path) == before
    with pytest.raises(ValueError, match="the piece is not kept"):
        keep(tmp_path, SONG)
    assert path.read_bytes() == broken
    assert not (path.parent / "pieces").exists()


def test_a_text_that_is_gone_is_told(tmp_path: Path) -> None:
    folder = keep(tmp_path, SONG).folder
    (folder / "pieces" / "my-song.txt").unlink()
    (problem,) = check_profile(tmp_path, "me")
    assert (problem.severity, Path(problem.file).name) == ("warning", "my-song.txt")


@pytest.mark.parametrize("number", [errno.ENOSPC, errno.EACCES, errno.EIO])
@pytest.mark.parametrize("point", ["read", "make_folder", "create", "write", "fsync", "rename"])
@pytest.mark.parametrize("piece", [SONG, OTHER])
def test_a_disk_that_fails_leaves_everything_as_it_was(
    tmp_path: Path, point: str, number: int, piece: KeptPiece
) -> None:
    folder = keep(tmp_path, SONG).folder
    before = everything(tmp_path)
    disk = FaultyDisk()
    disk.fails[point] = number
    with pytest.raises(OSError, match=str(tmp_path)):
        keep_piece(folder, piece._replace(day="2027-01-01"), "another text", disk)
    assert everything(tmp_path) == before
    disk.fails.clear()
    keep_piece(folder, piece, "another text", disk)
    assert piece in Profile.open(tmp_path, "me").pieces


def test_a_disk_that_fills_up_between_both_files_changes_neither(tmp_path: Path) -> None:
    class Filling(FaultyDisk):
        def reach(self, point: str, path: Path) -> None:
            self.fails = {"write": errno.ENOSPC} if path.name.startswith(PIECES_FILE) else {}
            super().reach(point, path)

    folder = keep(tmp_path, SONG).folder
    before = everything(tmp_path)
    with pytest.raises(OSError, match="No space"):
        keep_piece(folder, SONG, "another text", Filling())
    assert everything(tmp_path) == before


def test_without_pieces_opening_looks_once_for_them(tmp_path: Path) -> None:
    looked: list[str] = []

    class Watching(FaultyDisk):
        def reach(self, point: str, path: Path) -> None:
            if "pieces" in path.name:
                looked.append(point)

    practise(tmp_path, 1)
    assert Profile.open(tmp_path, "me", disk=Watching()).pieces == ()
    assert looked == ["read"]


def test_a_file_that_cannot_be_read_is_told(tmp_path: Path) -> None:
    (keep(tmp_path, SONG).folder / PIECES_FILE).unlink()
    (tmp_path / "profiles" / "me" / PIECES_FILE).mkdir()
    opened = Profile.open(tmp_path, "me")
    (problem,) = opened.problems
    assert "no piece comes first" in problem.message
    (found,) = check_profile(tmp_path, "me")
    assert (Path(found.file).name, found.message) == (PIECES_FILE, "a folder stands in its place")


@pytest.mark.parametrize(
    ("title", "name"),
    [
        ("My Song", "my-song"), ("  MY   song!  ", "my-song"), ("Été à l'ombre", "ete-a-lombre"),
        ("../../etc/passwd", "etc-passwd"), ("C:\\x", "c-x"), ("Étude No. 1", "etude-no-1"),
    ],
)  # fmt: skip
def test_a_name_is_what_the_title_says(title: str, name: str) -> None:
    assert piece_name(clean_title(title), "") == name


@given(st.text(max_size=150), st.text(max_size=20))
@example("con", "")
@example("LPT1", "")
@example("夜", "")
@example("", "")
def test_a_name_is_one_on_every_platform(title: str, text: str) -> None:
    name = piece_name(clean_title(title), text)
    piece = SONG._replace(file=f"{name}.txt", title=clean_title(title))
    assert 1 <= len(name) <= 50
    assert name.strip("-") == name
    assert set(name) <= set("abcdefghijklmnopqrstuvwxyz0123456789-")
    assert not is_device(name)
    assert piece.title.isprintable()
    document = f'[pieces.a]\norder = 1\ntitle = "a"\nfile = "{piece.file}"\nday = ""\nitems = []\n'
    assert parse_pieces(document.encode(), "")[0][0].file == piece.file


def test_titles_that_no_name_can_hold_do_not_share_one() -> None:
    names = {piece_name(title, "") for title in ("夜 1", "朝 1", "1", "x" * 60 + "a", "x" * 60 + "b", "con", "", "夜")}
    assert len(names) == 8
    assert piece_name("", "one") != piece_name("", "other")

"""A stranger's first ten messages, and what must hold around them, through the real command.

The ten, what a second run knows of them, the demonstration and an operator's mistakes are each run
as a process of its own.
"""

from __future__ import annotations

import sqlite3
from pathlib import Path
from typing import NamedTuple

import pytest

from tests.whole.chatting import chat, figures, replies, run

TEN = """\
truck Juniper gvwr 11500 gcwr 27000 front axle 5600 rear axle 7000 payload 3180 tank 34 gal diesel
trailer flatdeck gvwr 12000 axles 2x6000
hitched up
steer 5280 drive 6940 trailer 9840
solo: steer 4980 drive 5620
48011, 31.4 gal at 3.899
48213 17.3 gal $67.45 full
did you feed the chickens
steer 5360 drive 8820 trailer 9180 gross 24360
how heavy are we?
week
"""


class Shown(NamedTuple):
    """What a process of its own said to the ten messages, and where it kept them."""

    lines: list[str]
    database: Path


@pytest.fixture(scope="module")
def ten(tmp_path_factory: pytest.TempPathFactory) -> Shown:
    """The ten messages, with `help`, which changes nothing, between them."""
    database = tmp_path_factory.mktemp("ten") / "logbook.db"
    text = "\nhelp\n".join(TEN.splitlines()) + "\nhelp\n"
    return Shown(chat_of_its_own(text, database), database)


def chat_of_its_own(text: str, database: Path, name: str = "Wren") -> list[str]:
    """The lines that a process of its own prints for piped messages."""
    done = run("chat", "--database", database, "--as", name, text=text)
    assert (done.returncode, done.stderr) == (0, "")
    return done.stdout.splitlines()


def apart(said: list[str], between: list[str]) -> list[list[str]]:
    """The answers that stand between the same lines."""
    found: list[list[str]] = []
    while said:
        end = next(n for n in range(len(said)) if said[n : n + len(between)] == between)
        found.append(said[:end])
        said = said[end + len(between) :]
    return found


@pytest.fixture
def database(tmp_path: Path) -> Path:
    return tmp_path / "logbook.db"


def test_ten_messages_have_their_right_outcomes(ten: Shown, database: Path) -> None:
    rig, trailer, hitched, hitched_pass, solo_pass, first, second, talk, wrong, weight, week = (
        apart(ten.lines, chat("help\n", database))
    )

    assert rig[0] == "Juniper: 6 ratings kept."
    assert figures(rig)["GVWR"] == "11,500 lb"
    assert trailer[0] == "Flatdeck: 2 ratings kept."
    assert hitched == ["Flatdeck hitched."]

    # By hand: 5,280 + 6,940 = 12,220 on the truck, 720 above its GVWR of 11,500; with 9,840 on
    # the trailer's axles 22,060 in all. The drive axle has 7,000 - 6,940 = 60 left.
    assert "GVWR" in hitched_pass[0]
    assert "720 lb" in hitched_pass[0]
    assert figures(hitched_pass)["Gross"] == "22,060 lb"
    assert figures(hitched_pass)["Truck"] == "12,220 lb"
    assert figures(hitched_pass)["Drive axle"] == "60 lb left"

    # By hand: the truck alone weighs 4,980 + 5,620 = 10,600, so that 12,220 - 10,600 = 1,620
    # are tongue; the trailer is 9,840 + 1,620 = 11,460, and 1,620 of that are 14.1 %.
    assert figures(solo_pass)["Tongue"].startswith("1,620 lb")
    assert any("14.1 % of 11,460 lb" in line for line in solo_pass)

    # By hand: 31.4 gal at $3.899 are $122.43; 48,213 - 48,011 = 202 mi on 17.3 gal are 11.7 mpg.
    assert figures(first)["Cost"] == "$122.43"
    assert "sets the start" in "\n".join(first)
    assert second[0].startswith("11.7 ")
    assert "202 mi on 17.3 gal" in second[0]

    assert talk == []

    # By hand: 5,360 + 8,820 + 9,180 = 23,360, not 24,360.
    assert wrong[0] == "The axles make 23,360 lb, the gross reads 24,360 lb. Which figure is wrong?"
    assert "Nothing is kept until then." in "\n".join(wrong)

    assert figures(weight)["Gross"] == "22,060 lb", "the doubtful pass was not kept"
    assert "202 mi" in week[0]
    assert "$189.88" in week[0]


def test_a_second_run_remembers_everything(ten: Shown) -> None:
    assert figures(ten.lines)["Gross"] == "22,060 lb"
    again = chat_of_its_own("how heavy are we?\nratings\n", ten.database, name="Theo")
    assert figures(again)["Gross"] == "22,060 lb"
    assert figures(again)["Tongue"].startswith("1,620 lb")
    assert any("GCWR" in line and "27,000 lb" in line for line in again)


def test_a_figure_in_doubt_is_settled_by_the_next_message_and_kept_across_runs(
    database: Path,
) -> None:
    chat("steer 5360 drive 8820 trailer 9180 gross 24360\n", database)
    chat("1\n", database)
    assert figures(chat("how heavy are we?\n", database))["Gross"] == "23,360 lb"


def test_a_correction_and_its_undo_change_what_follows(database: Path) -> None:
    ask = "how heavy are we?"
    said = replies(
        ["steer 5280 drive 6940 trailer 9840", "make that 5,230", ask, "undo", ask, "undo", ask],
        database,
    )
    assert said[1][0].startswith("Steer now 5,230 lb, not 5,280 lb.")
    assert figures(said[2])["Gross"] == "22,010 lb"
    assert figures(said[4])["Gross"] == "22,060 lb"
    assert "No weighing" in said[6][0]


def test_the_last_of_a_kind_is_taken_back_by_its_name(database: Path) -> None:
    said = replies(
        [
            "steer 5280 drive 6940 trailer 9840",
            "31.4 gal 48,211 full",
            "delete that weighing",
            "how heavy are we?",
            "how far on this tank",
            "scratch the fill",
        ],
        database,
    )
    assert "31.4" not in "".join(said[2])
    assert "No weighing" in said[3][0]
    assert "31.4" in "".join(said[5])


def test_a_corrected_load_is_no_rating_and_a_corrected_rating_is_no_load(database: Path) -> None:
    said = replies(
        [
            "hitch rating 14000, tongue rating 1400",
            "steer 5280 drive 6940 trailer 9840 tongue 1148",
            "tongue was 1184 not 1148",
            "tongue rating is 1500 not 1400",
        ],
        database,
    )
    assert said[2][0].startswith("Tongue now 1,184 lb, not 1,148 lb.")
    assert said[3][0].startswith("Max tongue now 1,500 lb, not 1,400 lb.")


def test_which_of_two_trailers_is_on_is_asked_once_and_answered_by_number(database: Path) -> None:
    chat("trailer flatdeck gvwr 12000\ntrailer camper gvwr 7600\n", database)
    asked = chat("hitched up, leaving, 48011\n", database)
    assert asked[0].endswith("Which trailer is on?")
    assert [line.strip() for line in asked[-2:]] == ["1  flatdeck", "2  camper"]
    assert chat("2\n", database) == ["Camper hitched."]
    assert "camper" in "\n".join(chat("unhitched\n", database)).casefold()


def test_two_logbooks_know_nothing_of_each_other(tmp_path: Path) -> None:
    one, two = tmp_path / "one.db", tmp_path / "two.db"
    chat("steer 5280 drive 6940 trailer 9840\n", one)
    assert "No weighing" in chat("how heavy are we?\n", two)[0]


def test_a_logbook_keeps_its_units_until_others_are_asked_for(database: Path) -> None:
    chat("front axle 1480 kg, rear 1920, trailer 2150\n", database, "--units", "metric")
    assert figures(chat("how heavy are we?\n", database))["Gross"] == "5,550 kg"
    assert figures(chat("how heavy are we?\n", database, "--units", "us"))["Gross"] == "12,236 lb"
    assert figures(chat("how heavy are we?\n", database))["Gross"] == "12,236 lb"


def test_talk_alone_leaves_no_word_in_the_database(database: Path) -> None:
    assert chat("the chickens are out again\nwho left the gate open\n", database) == []
    with sqlite3.connect(database) as connection:
        assert connection.execute("SELECT count(*) FROM messages").fetchone() == (0,)
    assert b"chickens" not in database.read_bytes()


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (("--units", "furlongs"), "--units is 'furlongs'; it wants us, metric or imperial."),
        (("--currency", "$"), "--currency is '$'; it wants a code of three letters, as USD."),
        (
            ("--time-zone", "Mars"),
            "--time-zone is 'Mars'; it wants a zone's name, as America/Boise.",
        ),
    ],
)
def test_a_wrong_setting_is_told_in_one_sentence(
    database: Path, options: tuple[str, ...], said: str
) -> None:
    done = run("chat", "--database", database, *options)
    assert (done.returncode, done.stderr, done.stdout) == (2, said + "\n", "")
    assert not database.exists()


def test_a_file_that_is_no_logbook_is_told_in_one_sentence_and_left_alone(tmp_path: Path) -> None:
    path = tmp_path / "notes.txt"
    path.write_text("buy sugar for the bees\n" * 400)
    before = path.read_bytes()
    done = run("chat", "--database", path, text="odo 48211\n")
    assert done.returncode == 2
    assert done.stderr.count("\n") == 1
    assert "left as it is" in done.stderr
    assert path.read_bytes() == before


def test_the_demonstration_ends_in_a_week_whose_figures_follow_from_its_messages() -> None:
    done = run("demo")
    assert (done.returncode, done.stderr) == (0, "")
    said = " ".join(done.stdout.split())
    # By hand: 7,060 is 60 over 7,000; once the pallets are moved, the truck's 11,220 leave 280
    # to 11,500; 11,220 less 9,660 of truck alone are 1,560 of tongue on 11,680 of trailer.
    assert "Over: drive axle by 60 lb." in said
    assert "Close: truck GVWR, 280 lb left." in said
    assert "Tongue 1,560 lb" in said
    assert "13.4 %" in said
    # By hand: 48,193 - 48,011 = 182 mi on 17.3 gal are 10.5 mpg; 48,215 - 48,011 = 204 mi in all.
    assert "10.5 ± 0.4 mpg" in said
    assert "204 mi" in said
    assert said.endswith("pancakes?")

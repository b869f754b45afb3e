"""What a photo's lines are taken for, and what of a verdict on them is kept."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime

import pytest

from bot.phrasebook import phrasebook
from domain.choices import ChoiceLabel
from domain.columns import Line
from domain.context import Context
from domain.entries import Cargo, Correction, Entry, Fill, Hitch, Observation, Odometer, Weighing
from domain.pictured import closes, of_photo
from domain.quantities import Quantity
from domain.reading import read
from domain.ticket_lines import CERTAIN, LIKELY, NOTHING, Told, captioned, told
from domain.verdicts import Ask, Choice, Facts, Question, Silent, Verdict
from tests.domain.scale_house import lb


def page(text: str, confidence: float = 0.99) -> list[Line]:
    return [Line(line, confidence) for line in text.split("\n")]


def told_of(text: str, confidence: float = 0.99) -> Told:
    return told(page(text, confidence), phrasebook())


TODAY = date(2026, 7, 12)
KNOWN = Context(sent_at=datetime(2026, 7, 12, 9, tzinfo=UTC), odometer=Quantity(48010, "mi"))


def weighing(**loads: float) -> Weighing:
    return Weighing(at=TODAY, loads={position: lb(load) for position, load in loads.items()})


def fill(volume: float = 31.402, price: float = 3.899, cost: float = 122.44) -> Fill:
    return Fill(
        at=TODAY, product="diesel", volume=Quantity(volume, "gal"),
        unit_price=Quantity(price, "USD/gal"), cost=Quantity(cost, "USD"),
    )  # fmt: skip


WEIGHED = weighing(steer=5280, drive=6140, trailer=8520, gross=19940)

SCALE_TICKET = """CLOVER GRADE SCALE
12 Mill Lane
Telephone 555-0142
DATE 07/11/2026, TIME 14:22
TICKET NO 48211
STEER AXLE 5,280 lb
DRIVE AXLE 6,140 lb
TRAILER AXLE 8,520 lb
GROSS WEIGHT 19,940 lb
OPERATOR 4
Keep this ticket."""

RECEIPT = """WILLOW BEND
07/11/2026 14:22
PUMP NO 7
PRODUCT DIESEL
GALLONS 31.402
PRICE/GAL $3.899
FUEL TOTAL $122.44
CARD ENDING 4411
AUTH NO 009123
APPROVED
THANK YOU"""


def test_a_tickets_loads_and_date_go_into_the_text_and_nothing_else() -> None:
    assert told_of(SCALE_TICKET) == Told(
        "DATE 07/11/2026, TIME 14:22\nSTEER AXLE 5,280 lb\nDRIVE AXLE 6,140 lb\n"
        "TRAILER AXLE 8,520 lb\nGROSS WEIGHT 19,940 lb",
        sure=True,
    )


def test_a_receipts_card_and_authorisation_are_nobodys_business() -> None:
    assert told_of(RECEIPT) == Told(
        "07/11/2026 14:22\nPRODUCT DIESEL\nGALLONS 31.402\nPRICE/GAL $3.899\nFUEL TOTAL $122.44",
        sure=True,
    )


def test_the_text_read_again_gives_the_same_entry() -> None:
    context = Context(sent_at=datetime(2026, 7, 12, 9, tzinfo=UTC))
    once = told_of(RECEIPT)
    again = told(page(once.text), phrasebook())
    assert again == once
    assert of_photo(read(once.text, context, phrasebook()), once.sure, context) == Facts((
        Fill(
            at=datetime(2026, 7, 11, 14, 22, tzinfo=UTC), product="diesel",
            volume=Quantity(31.402, "gal"), unit_price=Quantity(3.899, "USD/gal"),
            cost=Quantity(122.44, "USD"),
        ),
    ))  # fmt: skip


def with_confidence(text: str, line: str, confidence: float) -> list[Line]:
    return [Line(each, confidence if each == line else 0.99) for each in text.split("\n")]


@pytest.mark.parametrize("line", ["ODOMETER 48211", "DATE 07/11/2026, TIME 14:22"])
def test_one_uncertain_figure_that_is_kept_makes_the_whole_unsure(line: str) -> None:
    lines = with_confidence(f"{SCALE_TICKET}\nODOMETER 48211", line, CERTAIN - 0.01)
    assert told(lines, phrasebook()).sure is False


@pytest.mark.parametrize(
    ("text", "line"), [(SCALE_TICKET, "STEER AXLE 5,280 lb"), (RECEIPT, "GALLONS 31.402")]
)
@pytest.mark.parametrize(("confidence", "sure"), [(LIKELY, True), (LIKELY - 0.01, False)])
def test_a_likely_figure_is_sure_where_the_arithmetic_of_its_page_bears_it_out(
    text: str, line: str, confidence: float, sure: bool
) -> None:
    assert told(with_confidence(text, line, confidence), phrasebook()).sure is sure


def test_a_likely_figure_that_nothing_bears_out_is_not_sure() -> None:
    text = SCALE_TICKET.replace("5,280", "5,260")
    lines = with_confidence(text, "STEER AXLE 5,260 lb", CERTAIN - 0.01)
    assert told(lines, phrasebook()).sure is False


def test_an_uncertain_figure_that_is_left_out_does_no_harm() -> None:
    lines = page(SCALE_TICKET)
    lines[2] = Line("Telephone 555-0142", 0.0)
    assert told(lines, phrasebook()).sure is True


@pytest.mark.parametrize(
    "dated", ["", "TIME 14:22", "DATE O7/1l/2O26", "DATE04/06 2026", "04/2026 14:22"]
)
def test_a_ticket_whose_day_was_not_made_out_is_not_sure(dated: str) -> None:
    text = SCALE_TICKET.replace("DATE 07/11/2026, TIME 14:22", dated)
    assert told_of(text).text != ""
    assert told_of(text).sure is False


@pytest.mark.parametrize(
    "caption", ["bars on, two aboard", "odo 48211 filled up", "here's the ticket", "Clover Grade"]
)
def test_a_caption_that_tells_more_stands_above_the_photos_text(caption: str) -> None:
    page = told_of(SCALE_TICKET)
    assert captioned(caption, page, phrasebook()) == Told(f"{caption}\n{page.text}", sure=True)


@pytest.mark.parametrize(
    "caption",
    [
        "not ours, but look at this",
        "look how heavy Dan's rig is",
        "his ticket",
        "how heavy are we?",
        "if we loaded like the neighbours",
    ],
)
def test_a_caption_that_asks_or_speaks_of_others_is_left_out_and_the_photo_not_sure(
    caption: str,
) -> None:
    page = told_of(SCALE_TICKET)
    assert captioned(caption, page, phrasebook()) == Told(page.text, sure=False)


@pytest.mark.parametrize("caption", ["", " \n"])
def test_a_photo_without_a_caption_is_its_own_text(caption: str) -> None:
    page = told_of(SCALE_TICKET)
    assert captioned(caption, page, phrasebook()) == page


@pytest.mark.parametrize(
    "text",
    [
        "",
        "MENU\nSteer burger $12.99\nGross breakfast $14.50",
        "MILK 1 GAL 3.49\nEGGS 12 4.29\nTOTAL $7.78\n07/11/2026",
        "WEIGHT LIMIT\n2 AXLE 15 T\n3 AXLE 22 T\nGROSS 36 T",
        "GVWR 11,500 LB\nFRONT AXLE GAWR 5,600 LB\nREAR AXLE GAWR 7,000 LB",
        "DIESEL 3.899\nUNLEADED 3.299",
        "Vet 555-0142\nScale house 555-0155",
        "48211 mi\nRANGE 312 mi\nTRIP A 412.3",
        "he said steer was 5,280 and drive 6,140\n9:41\ntrailer 8,520 gross 19,940\nok lol 9:42",
        "2 Drive axle seal $128.40\n1 Steer damper $112.00\nTotal $553.50",
        "JULY 2026\n1 2 3 4 5\n6 7 8 9 10 11 12",
        "NET WEIGHT 50 lb",
    ],
)
def test_what_is_no_ticket_and_no_receipt_leaves_no_text(text: str) -> None:
    assert told_of(text) == NOTHING


@pytest.mark.parametrize(
    "verdict",
    [
        Silent(),
        Question("weight"),
        Facts((Correction(action="undo"),)),
        Facts((Hitch(action="hitched"),)),
        Facts((Odometer(odometer=Quantity(48211, "mi")),)),
        Facts((Observation(subject="coolant", value=Quantity(195, "degF")),)),
        Facts((Cargo(item="hives", value=lb(900)),)),
        Ask("cargo", (Choice("hives", (Cargo(item="hives", value=lb(900)),)),)),
    ],
)
@pytest.mark.parametrize("sure", [True, False])
def test_what_is_neither_a_weighing_nor_a_fill_is_not_taken_from_a_photo(
    verdict: Verdict, sure: bool
) -> None:
    assert of_photo(verdict, sure, KNOWN) == Silent()


@pytest.mark.parametrize("entry", [WEIGHED, fill()])
def test_what_is_sure_and_adds_up_is_kept(entry: Entry) -> None:
    assert of_photo(Facts((entry,)), sure=True, context=KNOWN) == Facts((entry,))


@pytest.mark.parametrize("entry", [WEIGHED, fill()])
def test_what_is_not_sure_is_one_tap_away(entry: Entry) -> None:
    asked = of_photo(Facts((entry,)), sure=False, context=KNOWN)
    assert asked == Ask("photo", (Choice(ChoiceLabel("as_read"), (entry,)),), "photo")


@pytest.mark.parametrize(
    "entry",
    [
        weighing(steer=5280, drive=6140, trailer=8520, gross=19960),
        weighing(steer=5280, drive=6140, trailer=8520),
        weighing(gross=19940),
        weighing(drive=6140, trailer=8520, gross=14660),
        weighing(steer=5280, drive=6140, tongue=1200, gross=11420),
        weighing(steer_left=2600, steer_right=2660, steer=5280, drive=6140, gross=11420),
        weighing(trailer_1=4300, trailer_2=4240, trailer=8520, truck=11420, gross=19940),
        fill(cost=122.64),
        replace(fill(), product=None),
        fill(volume=37.402),
        Fill(product="diesel", volume=Quantity(31.402, "gal"), cost=Quantity(122.44, "USD")),
        Fill(
            product="diesel",
            volume=Quantity(31.402, "gal"),
            unit_price=Quantity(3.899, "USD/L"),
            cost=Quantity(122.44, "USD"),
        ),
    ],
)
def test_what_does_not_add_up_is_asked_about_however_clear_it_is(entry: Entry) -> None:
    asked = of_photo(Facts((entry,)), sure=True, context=KNOWN)
    assert asked == Ask("photo", (Choice(ChoiceLabel("as_read"), (entry,)),), "photo")


@pytest.mark.parametrize(
    "entry",
    [
        weighing(truck=11420, trailer=8520, gross=19940),
        weighing(steer=5280, drive=6140, gross=11420),
        weighing(steer_left=2600, steer_right=2680, drive=6140, gross=11420),
        weighing(steer=5280, drive=6140, trailer_1=4280, trailer_2=4240, gross=19940),
        Weighing(
            loads={
                "truck": Quantity(4.62, "t"),
                "trailer": Quantity(3.86, "t"),
                "gross": Quantity(8.48, "t"),
            }
        ),
        Fill(
            product="diesel",
            volume=Quantity(78.42, "L"),
            unit_price=Quantity(1.719, "EUR/L"),
            cost=Quantity(134.80, "EUR"),
        ),
    ],
)
def test_loads_add_up_by_wheels_axles_and_wholes_and_money_to_the_cent(entry: Entry) -> None:
    assert closes(entry)


def test_one_of_two_fills_that_does_not_add_up_has_both_asked_about() -> None:
    entries = (fill(), fill(cost=12.79))
    assert isinstance(of_photo(Facts(entries), sure=True, context=KNOWN), Ask)


def test_an_odometer_reading_goes_with_the_fill_beside_it_and_a_hitching_does_not() -> None:
    miles = Odometer(at=TODAY, odometer=Quantity(48211, "mi"))
    verdict = Facts((Hitch(action="hitched"), fill(), miles))
    assert of_photo(verdict, sure=True, context=KNOWN) == Facts((fill(), miles))


def test_a_place_is_not_taken_from_a_photo() -> None:
    placed = replace(fill(), place="here's the receipt")
    assert of_photo(Facts((placed,)), sure=True, context=KNOWN) == Facts((fill(),))


def test_a_doubt_of_the_reader_keeps_the_choices_that_are_weighings_or_fills() -> None:
    kept = Choice("19,940 lb gross", (WEIGHED,))
    doubt = Ask("gross", (kept, Choice("hives", (Cargo(item="hives", value=lb(900)),))))
    assert of_photo(doubt, sure=True, context=KNOWN) == Ask("gross", (kept,))


def test_a_doubt_without_choices_is_asked() -> None:
    doubt = Ask("unit_price", why="implausible", figures=(Quantity(38.99, "USD/gal"),))
    assert of_photo(doubt, sure=True, context=KNOWN) == doubt


@pytest.mark.parametrize(
    "at", [date(2026, 7, 13), date(2026, 7, 11), datetime(2026, 7, 1, 6, tzinfo=UTC)]
)
def test_a_day_of_the_last_two_weeks_is_kept(at: date) -> None:
    dated = replace(fill(), at=at)
    assert of_photo(Facts((dated,)), sure=True, context=KNOWN) == Facts((dated,))


@pytest.mark.parametrize(
    "at", [None, date(2026, 6, 11), date(2025, 7, 11), date(2026, 7, 21), date(2026, 11, 7)]
)
@pytest.mark.parametrize("entry", [WEIGHED, fill()])
def test_no_day_or_one_that_is_long_past_or_to_come_is_asked_about(
    entry: Weighing | Fill, at: date | None
) -> None:
    dated = replace(entry, at=at)
    asked = of_photo(Facts((dated,)), sure=True, context=KNOWN)
    assert asked == Ask("photo", (Choice(ChoiceLabel("as_read"), (dated,)),), "photo")


def test_an_odometer_reading_is_kept_where_the_last_one_is_known_and_else_asked_about() -> None:
    read_off = replace(fill(), odometer=Quantity(48211, "mi"))
    assert of_photo(Facts((read_off,)), sure=True, context=KNOWN) == Facts((read_off,))
    new_log = replace(KNOWN, odometer=None)
    assert isinstance(of_photo(Facts((read_off,)), sure=True, context=new_log), Ask)


@pytest.mark.parametrize("odometer", ["4821", "98211", "8211", "482"])
def test_half_an_odometer_reading_is_never_kept_unasked(odometer: str) -> None:
    """What glare leaves of 48211 runs back or jumps."""
    page = told_of(f"{RECEIPT}\nODOMETER {odometer}")
    verdict = of_photo(read(page.text, KNOWN, phrasebook()), page.sure, KNOWN)
    assert isinstance(verdict, Ask)


def test_a_tickets_number_and_fee_are_not_taken() -> None:
    numbered = replace(WEIGHED, ticket="48211", cost=Quantity(14.5, "USD"))
    assert of_photo(Facts((numbered,)), sure=True, context=KNOWN) == Facts((WEIGHED,))

"""Logbooks out to files and in again; old spreadsheets in; nothing twice, nothing guessed."""

from __future__ import annotations

import csv
import io
import json
import shutil
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from openpyxl import Workbook, load_workbook

from bot.exchange import columns, exporting, files, headings, importing
from bot.exchange.numerals import decimal_sign, plain_numerals
from bot.phrasebook import phrasebook
from bot.store import journal, logbook, sharing
from bot.store.database import Store, open_store
from bot.store.tables import ChatRow, MessageRow
from domain.entries import (
    KINDS,
    POSITIONS,
    Cargo,
    Check,
    Correction,
    Entry,
    Fill,
    Hitch,
    Note,
    Observation,
    Odometer,
    Rating,
    Weighing,
)
from domain.log import Preferences
from domain.quantities import Quantity
from domain.records import Record
from domain.verdicts import Facts
from tests.store.logbooks import HOME, START, Scripted, as_told, told

BOISE = ZoneInfo("America/Boise")
NOW = datetime(2026, 8, 1, 18, 0, tzinfo=UTC)

# PostgreSQL keeps no NUL in a text (its documentation, 8.3); surrogates are no text.
texts = st.text(
    st.characters(exclude_characters="\x00", exclude_categories=["Cs"]), min_size=1, max_size=12
) | st.sampled_from(
    ["=1+1", "+1", "-x", "@SUM", "'quoted", "''", "\ttab", "a\r\nb", "_x0041_", "7"]
)
amounts = st.integers(0, 100_000) | st.floats(0, 1e6, allow_nan=False)


def of_units(*units: str) -> st.SearchStrategy[Quantity]:
    return st.builds(Quantity, amounts, st.sampled_from(units), st.none() | amounts)


masses, volumes, distances = of_units("lb", "kg", "t"), of_units("gal", "L"), of_units("mi", "km")
money, prices = of_units("USD", "CAD"), of_units("USD/gal", "CAD/L")
days = st.dates(date(2000, 1, 1), date(2030, 1, 1))
moments = st.integers(0, 10**9).map(
    lambda s: datetime(2000, 1, 1, tzinfo=UTC) + timedelta(seconds=s)
)
common: dict[str, st.SearchStrategy[Any]] = {
    "at": days | moments,
    "place": st.none() | texts,
    "truck": st.none() | texts,
    "trailer": st.none() | texts,
    "note": st.none() | texts,
    "words": st.just(()),
}
entries: st.SearchStrategy[Entry] = st.one_of(
    st.builds(
        Weighing,
        loads=st.dictionaries(st.sampled_from(POSITIONS), masses, min_size=1, max_size=4),
        fuel_level=st.none() | st.floats(0, 1),
        aboard=st.none() | st.integers(0, 9),
        ticket=st.none() | texts,
        cost=st.none() | money,
        **common,
    ),
    st.builds(
        Fill,
        product=st.none() | texts,
        volume=st.none() | volumes,
        odometer=st.none() | distances,
        distance=st.none() | distances,
        unit_price=st.none() | prices,
        cost=st.none() | money,
        dash_economy=st.none() | of_units("mi/gal", "L/100km"),
        **common,
    ),
    st.builds(Odometer, odometer=distances, **common),
    st.builds(Hitch, **common),
    st.builds(Observation, subject=texts, value=of_units("degF", "psi"), **common),
    st.builds(Rating, subject=texts, rating=texts, value=masses | amounts, **common),
    st.builds(Cargo, item=texts, value=masses, distance=st.none() | of_units("ft"), **common),
    st.builds(Check, item=texts, **common),
    st.builds(Note, **common),
)


def on_the_wall(text: str) -> datetime:
    """A time without a zone, as a sheet has it."""
    return datetime.fromisoformat(text)


def chat(store: Store, name: str = "barn", preferences: Preferences = HOME) -> ChatRow:
    with store.work() as session:
        row = journal.chat_of(session, "test", name) or journal.open_chat(
            session, "test", name, preferences, START
        )
        session.commit()
        return row


def keep(store: Store, home: ChatRow, kept: Sequence[tuple[Entry, str]]) -> None:
    """Entries by name, as if they had been texted."""
    with store.writing() as unit:
        for number, (entry, by) in enumerate(kept):
            message = as_told("...", at=number, author=by, chat=home.chat)
            key = journal.record(unit, message, HOME, START)
            assert key is not None
            row = journal.find_by_key(unit.plain, key).message
            at = logbook.happened_at(entry, START, HOME)
            logbook.keep(unit.plain, home.logbook_id, row, entry, at)
        unit.commit()


def exported(store: Store, home: ChatRow) -> list[Record]:
    with store.look() as session:
        return exporting.records(session, home.logbook_id)


def brought(store: Store, home: ChatRow, path: Path) -> importing.Plan:
    """A file planned and kept."""
    with store.work() as session:
        planned = importing.plan(session, home, path, "Ana")
        importing.apply(session, home, planned, NOW)
    return planned


def test_a_logbook_that_was_changed_while_a_file_was_read_gets_nothing_of_it(
    store: Store, tmp_path: Path
) -> None:
    home = chat(store)
    path = tmp_path / "old.csv"
    path.write_text("Date,Odometer (mi),Gallons\n2026-07-01,48011,31.4\n")
    with store.look() as session:
        planned = importing.plan(session, home, path, "Ana")
    told(store, as_told("odo 48213"))
    with store.work() as session, pytest.raises(files.NotReadable, match="import it again"):
        importing.apply(session, home, planned, NOW)
    assert len(exported(store, home)) == 1


def written(store: Store, home: ChatRow, path: Path) -> Path:
    path.write_bytes(exporting.written(exported(store, home), path.suffix))
    return path


def ordered(records: Sequence[Record]) -> list[str]:
    return sorted(json.dumps(each, sort_keys=True) for each in records)


@contextmanager
def opened(path: Path) -> Iterator[Store]:
    store = open_store(path)
    try:
        yield store
    finally:
        store.close()


@pytest.mark.parametrize("ending", files.FORMATS)
@settings(max_examples=15, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(kept=st.lists(st.tuples(entries, st.sampled_from(["ana", "ben"])), max_size=4))
def test_export_then_import_on_an_empty_logbook_gives_equal_records(
    kept: list[tuple[Entry, str]],
    ending: str,
    tmp_path_factory: pytest.TempPathFactory,
    migrated: Path,
) -> None:
    folder = tmp_path_factory.mktemp("round")
    first, second = (Path(shutil.copy(migrated, folder / name)) for name in ("one", "two"))
    with opened(first) as old, opened(second) as new:
        home, there = chat(old), chat(new)
        keep(old, home, kept)
        path = written(old, home, folder / f"logbook{ending}")
        planned = brought(new, there, path)
        assert planned.refused == ()
        assert ordered(exported(new, there)) == ordered(exported(old, home))
        assert brought(new, there, path).keeps == ()
        assert brought(old, home, path).keeps == (), "what was exported stands already"


@pytest.mark.parametrize("ending", files.FORMATS)
def test_a_logbook_goes_out_and_comes_in_on_both_databases(
    store: Store, tmp_path: Path, ending: str
) -> None:
    loads = {"steer": Quantity(5280, "lb"), "drive": Quantity(6240.5, "lb", 6200.0)}
    home = chat(store)
    keep(
        store,
        home,
        [
            (Weighing(loads=loads, rig="solo", place="=Stonecreek", ticket="007"), "ana"),
            (Fill(volume=Quantity(31.4, "gal"), full=True, at=date(2026, 7, 1)), "ben"),
            (Fill(volume=Quantity(31.4, "gal"), full=True, at=date(2026, 7, 1)), "ben"),
            (Rating(subject="tyres", rating="load_index", value=121), "ana"),
        ],
    )
    path = written(store, home, tmp_path / f"logbook{ending}")
    orchard = chat(store, "orchard")
    assert len(brought(store, orchard, path).keeps) == 4
    assert exported(store, orchard) == exported(store, home)
    assert brought(store, orchard, path).keeps == ()


def test_a_line_of_an_export_is_a_record_of_the_read_contract(store: Store, tmp_path: Path) -> None:
    told(store, as_told("odo 48211"))
    path = written(store, chat(store), tmp_path / "logbook.jsonl")
    assert json.loads(path.read_text()) == {
        "kind": "odometer",
        "odometer": {"value": 48211, "unit": "mi"},
        "at": "2026-07-11T14:22:00-06:00",
        "by": "Ana",
    }


# Which characters begin a formula: OWASP, 'CSV Injection'.
@pytest.mark.parametrize("first", files.FORMULA_STARTS)
def test_a_text_that_could_be_a_formula_is_written_as_quoted_text(
    first: str, tmp_path: Path
) -> None:
    record = {"kind": "note", "at": "2026-07-11", "note": f"{first}cmd|' /C calc'!A0"}
    names, rows = columns.table([record])
    (row,) = list(csv.reader(io.StringIO(files.write_csv(names, rows).decode("utf-8-sig"))))[1:]
    assert not any(cell.startswith(tuple(files.FORMULA_STARTS)) for cell in row)
    path = tmp_path / "note.xlsx"
    path.write_bytes(files.write_xlsx(names, rows))
    cells = [cell for (cell,) in load_workbook(path).worksheets[0].iter_cols(min_row=2)]
    assert {cell.data_type for cell in cells if cell.value is not None} == {"s"}
    titles, read = files.read_table(path)
    assert columns.record(dict(zip(titles, read[0][1], strict=True))) == record


def test_a_reading_below_zero_stays_a_number() -> None:
    cold = {"kind": "observation", "subject": "ambient", "value": {"value": -12, "unit": "degF"}}
    assert b",-12," in files.write_csv(*columns.table([cold]))


SHEET = """Date,Odometer (mi),Gallons,Price/gal,Total,Full?,Station,Driver,Notes,Weather
2026-05-02,47100,30.2,3.899,117.75,yes,Stonecreek co-op,Nora,,sunny
2026-05-09,47512,28.1,$3.95,$111.00,partial,Willow Flat,Ben,windy,
2026-05-16,47400,29,3.90,113.10,yes,Willow Flat,Nora,,
2026-05-23,47950,31.0,3.90,190.00,yes,Willow Flat,Nora,,
2026-05-30,48310,about thirty,3.9,,yes,Willow Flat,Nora,,
,48500,20,,,,,,,
06/06/2026,48720,30,3.80,114.00,no,Willow Flat,Nora,,
"""


def sheet(tmp_path: Path, text: str, name: str = "old.csv") -> Path:
    path = tmp_path / name
    path.write_text(text)
    return path


def test_an_old_sheet_of_fills_is_read_by_its_headings(store: Store, tmp_path: Path) -> None:
    home = chat(store)
    path = sheet(tmp_path, SHEET)
    with store.work() as session:
        planned = importing.plan(session, home, path, "Ana")
    assert exported(store, home) == [], "a dry run keeps nothing"
    assert planned.unread == ("Weather",)
    assert {item.row: item.why for item in planned.items if not item.kept} == {
        4: "47,400 mi is behind the last reading, 47,512 mi. What does the odometer show?",
        5: "Volume and price make $120.90, not $190.00. Which figure is wrong?",
        6: "Gallons is 'about thirty', which can't be read",
        7: "no date in it",
    }
    first, second, third = (item.logged for item in planned.keeps)
    assert first is not None
    assert first.entry == Fill(
        at=date(2026, 5, 2),
        odometer=Quantity(47100, "mi"),
        volume=Quantity(30.2, "gal"),
        unit_price=Quantity(3.899, "USD/gal"),
        cost=Quantity(117.75, "USD"),
        full=True,
        place="Stonecreek co-op",
    )
    assert (first.by, first.at) == ("Nora", datetime(2026, 5, 2, 12, tzinfo=BOISE))
    assert second is not None
    assert isinstance(second.entry, Fill)
    assert (second.entry.full, second.entry.note, second.by) == (False, "windy", "Ben")
    assert third is not None
    assert third.entry.at == date(2026, 6, 6)
    brought(store, home, path)
    assert len(exported(store, home)) == 3
    assert brought(store, home, path).keeps == ()
    assert len(exported(store, home)) == 3


def test_an_old_sheet_of_weighings_is_read_by_its_headings(store: Store, tmp_path: Path) -> None:
    path = sheet(
        tmp_path,
        "When;Steer;Drive axle;Trailer axles;Gross weight;Trailer;Scale;Ticket #\n"
        "14/07/2026 09:30;2.395;2.830;4.173;9.398;flatdeck;Stonecreek;A17\n"
        "21/07/2026;2.400 kg;2.850 kg;;;;;\n"
        "22/07/2026;2.400;2.850;4.100;9.900;;;\n".replace(".", ""),
    )
    metric = Preferences(units="metric", currency="EUR", time_zone="Europe/Berlin")
    home = chat(store, "hof", metric)
    planned = brought(store, home, path)
    one, two = (item.logged for item in planned.keeps)
    assert one is not None
    assert two is not None
    loads = {"steer": 2395, "drive": 2830, "trailer": 4173, "gross": 9398}
    assert one.entry == Weighing(
        at=on_the_wall("2026-07-14T09:30"),
        loads={name: Quantity(load, "kg") for name, load in loads.items()},
        rig="hitched",
        trailer="flatdeck",
        place="Stonecreek",
        ticket="A17",
    )
    assert one.at == datetime(2026, 7, 14, 7, 30, tzinfo=UTC)
    assert isinstance(two.entry, Weighing)
    assert two.entry.rig is None
    assert [item.why for item in planned.refused] == [
        "The axles make 9,350 kg, the gross reads 9,900 kg. Which figure is wrong?"
    ]


def test_a_workbook_with_a_title_above_its_headings_is_read(store: Store, tmp_path: Path) -> None:
    book = Workbook()
    rows: list[list[Any]] = [
        ["Our pickup"],
        [],
        ["Date", "Time", "Miles", "Litres", "Cost £"],
        [on_the_wall("2026-05-02"), "2:05 pm", 48100, 110.5, 160.2],
        [on_the_wall("2026-05-09"), None, 48600, "98,4", "£143.10"],
    ]
    for row in rows:
        book.worksheets[0].append(row)
    book.save(tmp_path / "old.xlsx")
    home = chat(store, "yard", Preferences(units="imperial", currency="GBP", time_zone="UTC"))
    planned = brought(store, home, tmp_path / "old.xlsx")
    assert [item.logged.entry for item in planned.keeps if item.logged] == [
        Fill(
            at=on_the_wall("2026-05-02T14:05"),
            odometer=Quantity(48100, "mi"),
            volume=Quantity(110.5, "L"),
            cost=Quantity(160.2, "GBP"),
        ),
        Fill(
            at=date(2026, 5, 9),
            odometer=Quantity(48600, "mi"),
            volume=Quantity(98.4, "L"),
            cost=Quantity(143.1, "GBP"),
        ),
    ]


def test_a_load_that_the_rig_cannot_have_is_doubted(store: Store, tmp_path: Path) -> None:
    home = chat(store)
    keep(
        store,
        home,
        [(Rating(subject="truck", rating="gawr_front", value=Quantity(6000, "lb")), "ana")],
    )
    path = sheet(tmp_path, "date,steer,drive\n2026-05-02,15280,6240\n2026-05-03,5280,6240\n")
    planned = brought(store, home, path)
    assert [item.row for item in planned.keeps] == [3]
    assert "beyond its rating" in str(planned.items[0].why)


def test_an_imported_row_is_journalled_with_its_text(store: Store, tmp_path: Path) -> None:
    home = chat(store)
    brought(store, home, sheet(tmp_path, "Date,Odo\n2026-05-02,47100\n2026-05-03,47200\n"))
    with store.look() as session:
        found = session.query(MessageRow).order_by(MessageRow.id).all()
    assert [row.text for row in found] == [
        "Date: 2026-05-02; Odo: 47100",
        "Date: 2026-05-03; Odo: 47200",
    ]
    undo = Scripted({"undo": Facts((Correction(action="undo"),))})
    told(store, as_told("undo", at=1), reader=undo)
    assert len(exported(store, home)) == 1
    assert brought(store, home, sheet(tmp_path, "Date,Odo\n2026-05-03,47200\n")).keeps == ()


def test_a_name_in_a_sheet_is_somebody_of_this_logbook_alone(store: Store, tmp_path: Path) -> None:
    told(store, as_told("odo 47000"), as_told("odo 9000", chat="orchard", author="nora"))
    path = sheet(tmp_path, "Date,Odo,Driver\n2026-05-02,46100,Nora\n2026-05-03,46200,Ana\n")
    brought(store, chat(store), path)
    with store.look() as session:
        assert len(sharing.identities(session, sharing.person_named(session, "Ana"))) == 1
        with pytest.raises(sharing.NotShared, match="test:nora, import:1:Nora; say which"):
            sharing.person_named(session, "Nora")
    assert [each["by"] for each in exported(store, chat(store))] == ["Nora", "Ana", "Ana"]


@pytest.mark.parametrize(
    ("line", "why"),
    [
        ('{"kind": "odometer", "odometer": {"value": 1, "unit": "mi"}}', "no date in it"),
        ('{"kind": "moon", "at": "2026-07-11"}', "no such kind of entry: 'moon'"),
        ('{"kind": "correction", "action": "undo", "at": "2026-07-11"}', "a correction is no"),
        ('{"kind": "fill", "at": "2026-07-11", "volume": {"value": 1, "unit": "lb"}}', "the unit"),
        ('{"kind": "fill", "at": "yesterday"}', "form of a record"),
        ('{"kind": "weighing", "at": "2026-07-11", "loads": {}}', "at least one load"),
        (
            '{"kind": "fill", "at": "2026-07-11", "volume": {"value": "x", "unit": "L"}}',
            "no number",
        ),
        ("[1]", "no record"),
    ],
)
def test_a_record_that_cannot_stand_says_why(
    migrated: Path, tmp_path: Path, line: str, why: str
) -> None:
    with opened(Path(shutil.copy(migrated, tmp_path / "logbook.db"))) as store:
        planned = brought(store, chat(store), sheet(tmp_path, line, "old.jsonl"))
        assert why in str(planned.items[0].why)
        assert exported(store, chat(store)) == []


TITLES = (
    "Date", "Time", "Odometer", "Miles", "Gallons", "Price/gal", "Total", "Full?", "Steer", "Drive",
    "Trailer", "Gross", "Fuel", "Bars", "Rig", "People", "Notes", "Station", "MPG", "", "Missed",
)  # fmt: skip
cells = st.one_of(
    texts,
    st.sampled_from(
        [
            "2026-05-02",
            "5/6/26",
            "14:30",
            "25:99",
            "48,211",
            "31.4 gal",
            "$112",
            "yes",
            "1e400",
            "²",
        ]
    ),
    st.integers(-10, 10**20).map(str),
)


@settings(max_examples=40, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    titles=st.lists(st.sampled_from(TITLES), min_size=2, max_size=8),
    rows=st.lists(st.lists(cells, max_size=8), max_size=4),
)
def test_whatever_a_sheet_holds_each_row_is_kept_or_says_why(
    titles: list[str], rows: list[list[str]], tmp_path_factory: pytest.TempPathFactory, blank: Store
) -> None:
    path = tmp_path_factory.mktemp("sheet") / "old.csv"
    with path.open("w", newline="", encoding="utf-8") as file:
        csv.writer(file).writerows([titles, *rows])
    home = chat(blank)
    with blank.work() as session:
        try:
            planned = importing.plan(session, home, path, "Ana")
        except files.NotReadable:
            return
        assert importing.apply(session, home, planned, NOW) == len(planned.keeps)
        assert all(item.why or item.logged for item in planned.items)


@pytest.fixture
def blank(migrated: Path, tmp_path: Path) -> Iterator[Store]:
    """An empty SQLite logbook."""
    with opened(Path(shutil.copy(migrated, tmp_path / "blank.db"))) as store:
        yield store


@pytest.mark.parametrize(
    ("name", "content", "why"),
    [
        ("old.pdf", b"%PDF", "ends in none of"),
        ("old.xlsx", b"no zip", "is no workbook"),
        ("old.csv", b"\n\n", "no row of headings"),
        ("old.jsonl", b"{", "Line 1 is no JSON"),
    ],
)
def test_a_file_that_cannot_be_read_is_told_in_a_sentence(
    migrated: Path, tmp_path: Path, name: str, content: bytes, why: str
) -> None:
    (tmp_path / name).write_bytes(content)
    with (
        opened(Path(shutil.copy(migrated, tmp_path / "logbook.db"))) as store,
        pytest.raises(files.NotReadable, match=why),
    ):
        brought(store, chat(store), tmp_path / name)


@pytest.mark.parametrize(
    ("title", "field", "unit"),
    [
        ("DATE", "at", None),
        ("Date & Time", "at", None),
        ("Odo", "odometer", None),
        ("Odometer Reading (km)", "odometer", "km"),
        ("Mileage", "odometer", None),
        ("Gallons", "volume", "gal"),
        ("Litres", "volume", "L"),
        ("Fuel (L)", "volume", "L"),
        ("Qty gal", "volume", "gal"),
        ("$/gal", "unit_price", None),
        ("Price per litre", "unit_price", None),
        ("Price/L (CAD)", "unit_price", None),
        ("Unit price", "unit_price", None),
        ("Total cost", "cost", None),
        ("Amount paid ($)", "cost", None),
        ("Trip miles", "distance", "mi"),
        ("Trip meter", "distance", None),
        ("MPG", "dash_economy", "mi/gal"),
        ("Full tank?", "full", None),
        ("Partial", "full", None),
        ("Station", "place", None),
        ("Fuel type", "product", None),
        ("Remarks", "note", None),
        ("Who", "by", None),
        ("Steer", "steer load", None),
        ("Front axle (kg)", "steer load", "kg"),
        ("Drive axle lbs", "drive load", "lb"),
        ("Rear axle", "drive load", None),
        ("GCW", "gross load", None),
        ("Trailer total (lb)", "trailer load", "lb"),
        ("Tongue weight", "tongue load", None),
        ("Ball weight kg", "tongue load", "kg"),
        ("Trailer axle 1", "trailer_1 load", None),
        ("Ticket no.", "ticket", None),
        ("Scale fee", "cost", None),
        ("Cloud cover", None, None),
    ],
)
def test_a_heading_is_read_by_the_phrasebook(
    title: str, field: str | None, unit: str | None
) -> None:
    words = headings.heading_words("en")
    (column,) = headings.read_headings([title], [[7]], phrasebook(), words)
    assert (next(iter(column.fields), None), column.unit) == (field, unit)


@pytest.mark.parametrize(
    ("title", "field", "unit"),
    [
        ("Fecha", "at", None),
        ("Odómetro (km)", "odometer", "km"),
        ("Kilometraje", "odometer", None),
        ("Litros", "volume", "L"),
        ("Cantidad (L)", "volume", "L"),
        ("Galones", "volume", "gal"),
        ("Precio/L", "unit_price", None),
        ("Precio por litro", "unit_price", None),
        ("€/L", "unit_price", None),
        ("Importe (€)", "cost", None),
        ("Total pagado", "cost", None),
        ("Tanque lleno", "full", None),
        ("¿Lleno?", "full", None),
        ("Gasolinera", "place", None),
        ("Conductor", "by", None),
        ("Observaciones", "note", None),
        ("Consumo l/100km", "dash_economy", "L/100km"),
        ("Recorrido", "distance", None),
        ("Eje delantero (kg)", "steer load", "kg"),
        ("EJE TRASERO", "drive load", None),
        ("Dirección", "steer load", None),
        ("Motriz lb", "drive load", "lb"),
        ("Ejes del remolque", "trailer load", None),
        ("Peso bruto", "gross load", None),
        ("Peso en la lanza", "tongue load", None),
        ("Eje 1 del remolque", "trailer_1 load", None),
        ("Boleto", "ticket", None),
        ("Nublado", None, None),
    ],
)
def test_a_heading_is_read_in_spanish(title: str, field: str | None, unit: str | None) -> None:
    words = headings.heading_words("es")
    (column,) = headings.read_headings([title], [[7]], phrasebook("es"), words)
    assert (next(iter(column.fields), None), column.unit) == (field, unit)


SPAIN = Preferences(units="metric", currency="EUR", time_zone="Europe/Madrid", language="es")
REPOSTAJES = """Fecha;Kilómetros;Litros;Precio/L;Importe;Lleno;Gasolinera;Conductor;Cielo
02/05/2026;52.100;61,3;1,489;91,28;sí;Cooperativa;Nora;sol
09/05/2026;52.640;58;1,509;87,52;parcial;Sauce;Ben;
14/05/2026;53.100;1.000,5;;;no;;;
"""


def test_a_spanish_sheet_is_read_with_its_commas_and_its_days_first(
    store: Store, tmp_path: Path
) -> None:
    planned = brought(store, chat(store, "casa", SPAIN), sheet(tmp_path, REPOSTAJES))
    assert planned.unread == ("Cielo",)
    one, two, three = (item.logged for item in planned.keeps)
    assert one is not None
    assert one.entry == Fill(
        at=date(2026, 5, 2),
        odometer=Quantity(52100, "km"),
        volume=Quantity(61.3, "L"),
        unit_price=Quantity(1.489, "EUR/L"),
        cost=Quantity(91.28, "EUR"),
        full=True,
        place="Cooperativa",
    )
    assert one.by == "Nora"
    assert two is not None
    assert isinstance(two.entry, Fill)
    assert (two.entry.full, two.entry.at) == (False, date(2026, 5, 9))
    assert three is not None
    assert isinstance(three.entry, Fill)
    assert three.entry.volume == Quantity(1000.5, "L")


def test_a_spanish_sheet_of_weighings_is_read(store: Store, tmp_path: Path) -> None:
    path = sheet(
        tmp_path,
        "Fecha;Hora;Báscula;Eje delantero;Eje trasero;Ejes remolque;Peso bruto;Barras;Boleto\n"
        "14 de julio de 2026;9:30;Cooperativa;1.180;1.390;1.460;4.030;puestas;A17\n"
        "03/08/2026;14:05;Cooperativa;1.180;1.390;1.460;4.930;sueltas;A18\n",
    )
    planned = brought(store, chat(store, "casa", SPAIN), path)
    (one,) = (item.logged for item in planned.keeps)
    assert one is not None
    loads = {"steer": 1180, "drive": 1390, "trailer": 1460, "gross": 4030}
    assert one.entry == Weighing(
        at=on_the_wall("2026-07-14T09:30"),
        loads={name: Quantity(load, "kg") for name, load in loads.items()},
        rig="hitched",
        bars="on",
        place="Cooperativa",
        ticket="A17",
    )
    assert [item.row for item in planned.refused] == [3]


def test_an_english_sheet_is_read_in_a_spanish_logbook_and_its_points_stay_points(
    store: Store, tmp_path: Path
) -> None:
    text = "Date,Odometer (km),Litres,Price per litre,Total\n04/05/2026,52100,61.3,1.489,91.28\n"
    planned = brought(store, chat(store, "casa", SPAIN), sheet(tmp_path, text))
    (one,) = (item.logged for item in planned.keeps)
    assert one is not None
    assert isinstance(one.entry, Fill)
    assert (one.entry.unit_price, one.entry.at) == (Quantity(1.489, "EUR/L"), date(2026, 5, 4))


@pytest.mark.parametrize(
    ("written", "decimal", "plain"),
    [
        ("1.480,5", ".", "1480.5"),
        ("1,480.5", ",", "1480.5"),
        ("61,3", ".", "61.3"),
        ("1,489", ",", "1.489"),
        ("1,489", ".", "1489"),
        ("52.100", ",", "52100"),
        ("52.100", ".", "52.100"),
        ("1.234.567", ".", "1234567"),
        ("0,500", ".", "0.500"),
        ("0.500", ",", "0.500"),
        ("03.04.2026", ",", "03.04.2026"),
        ("1.2.3", ",", "1.2.3"),
        ("12 de 1.480 kg", ",", "12 de 1480 kg"),
    ],
)
def test_a_number_is_taken_by_itself_or_as_its_table_writes_them(
    written: str, decimal: str, plain: str
) -> None:
    assert plain_numerals(written, decimal) == plain


@pytest.mark.parametrize(
    ("cells", "usual", "decimal"),
    [
        (["1,489", "61,3 L"], ".", ","),
        (["1.489", "$61.30"], ",", "."),
        (["1.489", "52.100"], ",", ","),
        (["02.05.2026", "costaron 3,5 cada uno", 7], ".", "."),
        (["61,3", "58.2"], ".", "."),
    ],
)
def test_a_table_shows_which_sign_it_has_before_decimals(
    cells: list[columns.Cell], usual: str, decimal: str
) -> None:
    assert decimal_sign([cells], usual) == decimal


@pytest.mark.parametrize(
    ("titles", "row", "fields"),
    [
        (
            ["Steer", "Drive", "Total"],
            [5280, 6240, 11520],
            ["steer load", "drive load", "gross load"],
        ),
        (["Gallons", "Total"], [30, 117], ["volume", "cost"]),
        (["Fuel", "Gallons"], ["diesel", 30], ["product", "volume"]),
        (["Fuel", "Fuel type"], [30, "diesel"], ["volume", "product"]),
        (["Truck", "Trailer"], ["Juniper", "flatdeck"], ["truck", "trailer"]),
        (["Truck", "Trailer"], [11520, 9200], ["truck load", "trailer load"]),
        (["Miles", "Gallons"], [48211, 30], ["odometer", "volume"]),
        (["Miles", "Gallons"], [412, 30], ["distance", "volume"]),
        (["Odometer", "Miles"], [48211, 412], ["odometer", "distance"]),
    ],
)
def test_a_heading_of_two_meanings_is_settled_by_what_stands_below_and_beside(
    titles: list[str], row: list[columns.Cell], fields: list[str]
) -> None:
    found = headings.read_headings(titles, [row], phrasebook(), headings.heading_words("en"))
    assert [each.fields for each in found] == [(field,) for field in fields]


def test_every_kind_that_is_kept_has_its_columns() -> None:
    own = {name for kind in KINDS.values() if kind is not Correction for name in kind.__slots__}
    missing = {columns.heading(name) for name in own} - set(columns.COLUMNS) - {"loads", "words"}
    assert missing == set()

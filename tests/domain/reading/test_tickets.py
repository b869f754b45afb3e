"""Tickets and receipts as people paste them: many makers' layouts, and what is kept of each.

On paper a labelled line counts; what stands around it (addresses, telephones, plates, codes,
discounts, what was tendered) is no load, no volume and no odometer. Every layout is invented.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import pytest

from domain.context import Context
from domain.entries import Fill, Weighing
from domain.quantities import Quantity
from domain.verdicts import Facts
from tests.domain.reading.chats import Reader, on_the_road

AMERICAN = on_the_road(odometer=Quantity(51_200, "mi"), currency="USD")
BRITISH = on_the_road(
    odometer=Quantity(51_200, "mi"), units="imperial", currency="GBP", tank=Quantity(75, "L")
)
AUSTRALIAN = on_the_road(
    odometer=Quantity(51_200, "km"), units="metric", currency="AUD", tank=Quantity(136, "L")
)
CANADIAN = on_the_road(
    odometer=Quantity(51_200, "km"), units="metric", currency="CAD", tank=Quantity(136, "L")
)


@dataclass(frozen=True, slots=True)
class Ticket:
    """A scale's ticket, and the loads that it states in the chat's or its own unit."""

    text: str
    loads: dict[str, float]
    place: str | None = None
    ticket: str | None = None
    cost: float | None = None
    chat: Context = field(default=AMERICAN)


@dataclass(frozen=True, slots=True)
class Receipt:
    """A pump's receipt, and the fuel that it states."""

    text: str
    product: str | None
    volume: float
    price: float | None = None
    cost: float | None = None
    odometer: float | None = None
    place: str | None = None
    chat: Context = field(default=AMERICAN)


TICKETS = [
    Ticket(
        """\
WEIGHBRIDGE DOCKET 11873
Tarrant Grain Store
Date 14/07/2026 Time 10:12
Rego 1ABC234
Operator 7
Steer    1 480 kg
Drive    1 960 kg
Trailer  2 410 kg
Gross    5 850 kg
Tare     3 100 kg
Net      2 750 kg
Fee      $22.00""",
        {"steer": 1480, "drive": 1960, "trailer": 2410, "gross": 5850},
        place="Tarrant Grain Store",
        ticket="11873",
        cost=22,
        chat=AUSTRALIAN,
    ),
    Ticket(
        """\
WEIGHBRIDGE DOCKET No 44812
Rego 1AB 2CD
Gross 5,980 kg 11/07/2026 10:14
Tare 3,240 kg
Nett 2,740 kg
Fee (inc GST) $33.00""",
        {"gross": 5980},
        ticket="44812",
        cost=33,
        chat=AUSTRALIAN,
    ),
    Ticket(
        """\
CERTIFIED PUBLIC TRUCK SCALE
LOCATION: COULEE JCT TRAVEL STOP
EXIT 331 I-90
TICKET 77120345
DATE 07-10-26 TIME 14:22
TRACTOR 88 TRAILER 5513
STEER AXLE      5,240 LB
DRIVE AXLE      6,980 LB
TRAILER AXLE    9,140 LB
GROSS WEIGHT   21,360 LB""",
        {"steer": 5240, "drive": 6980, "trailer": 9140, "gross": 21360},
        place="COULEE JCT TRAVEL STOP",
        ticket="77120345",
    ),
    Ticket(
        """\
AXLE      WEIGHT
1         5,240
2         6,980
3         4,600
4         4,540
TOTAL    21,360""",
        {"gross": 21360, "steer": 5240, "drive": 6980, "trailer_1": 4600, "trailer_2": 4540},
    ),
    Ticket(
        """\
HOLLOW OAK QUARRY
WEIGH TICKET NO. 55821
CUSTOMER CASH SALE
VEHICLE LIC 7K 4471
MATERIAL 3/4 MINUS
GROSS   21,480 LB
TARE    12,220 LB
NET      9,260 LB
4.63 TONS @ $18.50
AMOUNT $85.66""",
        {"gross": 21480},
        place="HOLLOW OAK QUARRY",
        ticket="55821",
    ),
    Ticket(
        """\
STEER
 5,240
DRIVE
 6,980
TRAILER
 9,140
GROSS
 21,360
TICKET 88120""",
        {"steer": 5240, "drive": 6980, "trailer": 9140, "gross": 21360},
        ticket="88120",
    ),
    Ticket(
        """\
Scale: Public Scale
Weight 1 (Steer): 5,240 lb
Weight 2 (Drive): 6,980 lb
Weight 3 (Trailer): 9,140 lb
Total Weight: 21,360 lb
Transaction 99120""",
        {"steer": 5240, "drive": 6980, "trailer": 9140, "gross": 21360},
        ticket="99120",
    ),
    Ticket(
        """\
TRUCK STOP 88
WEIGH NUMBER: 3312
SCALE: 1142
STEER AXLE    5,160
DRIVE AXLE    6,720
TRAILER AXLE  8,980
GROSS        20,860
FULL WEIGH FEE $14.75""",
        {"steer": 5160, "drive": 6720, "trailer": 8980, "gross": 20860},
        ticket="3312",
        cost=14.75,
    ),
    Ticket(
        """\
Axle 1: 5160 lb
Axle 2: 6720 lb
Axle 3: 8980 lb
Gross: 20860 lb
Serial No: 20117
v2.14""",
        {"steer": 5160, "drive": 6720, "trailer": 8980, "gross": 20860},
        ticket="20117",
    ),
    Ticket(
        """\
MULLOCK CREEK PUBLIC WEIGHBRIDGE
FRONT AXLE GROUP  1.48 t
REAR AXLE GROUP   1.96 t
TRAILER GROUP     2.41 t
TOTAL             5.85 t
$18.50 inc GST
DOCKET 5512""",
        {"steer": 1.48, "drive": 1.96, "trailer": 2.41, "gross": 5.85},
        place="MULLOCK CREEK PUBLIC WEIGHBRIDGE",
        ticket="5512",
        cost=18.5,
        chat=AUSTRALIAN,
    ),
    Ticket(
        """\
Weighed 10/07/2026
Vehicle: BR4M BLE
Axle 1 1180kg
Axle 2 1640kg
Train weight 4740kg
Permitted GTW 6,850kg""",
        {"steer": 1180, "drive": 1640, "gross": 4740},
        chat=BRITISH,
    ),
    Ticket(
        """\
TAMARACK HARDWARE & FEED SCALE
ALL WEIGHTS IN POUNDS
LEFT FRONT 2,610
RIGHT FRONT 2,630
LEFT REAR 3,480
RIGHT REAR 3,500
OPERATOR J. HALE
SEAL 20117""",
        {"steer_left": 2610, "steer_right": 2630, "drive_left": 3480, "drive_right": 3500},
        place="TAMARACK HARDWARE & FEED SCALE",
    ),
    Ticket(
        """\
TRAILER ONLY
TICKET 40771
AXLE 1 4,480 LB
AXLE 2 4,560 LB
GROSS 9,040 LB
FEE 15.00""",
        {"trailer_1": 4480, "trailer_2": 4560, "gross": 9040},
        ticket="40771",
        cost=15,
    ),
    Ticket(
        """\
KNOB HILL SCALES
Truck + trailer   21,360
Truck             12,220
Trailer            9,140
Tkt 0117""",
        {"truck": 12220, "trailer": 9140, "gross": 21360},
        place="KNOB HILL SCALES",
        ticket="0117",
    ),
    Ticket(
        """\
Big Spruce Truck Wash & Scale
Wt. Ticket: 9917
Wt. In:  21,360 lb
Trk Steer: 5,240
Trk Drive: 6,980
Trl Tandem: 9,140""",
        {"steer": 5240, "drive": 6980, "trailer": 9140, "gross": 21360},
        place="Big Spruce Truck Wash & Scale",
        ticket="9917",
    ),
    Ticket(
        """\
Weighbridge docket no.70316
Steer 5,120 lb
Drive 6,540 lb
Trailer 8,260 lb
Gross 19,920 lb""",
        {"steer": 5120, "drive": 6540, "trailer": 8260, "gross": 19920},
        ticket="70316",
    ),
]

RECEIPTS = [
    Receipt(
        """\
PRAIRIE SKY TRAVEL PLAZA #214
8812 N FRONTAGE RD
ALDER GAP NE 69145
(308) 555-0117
INV 004471 REG 3 CLERK 07
DIESEL #2 PUMP 12
GALLONS............ 28.417
PRICE/GAL........... 3.899
FUEL SALE.......... 110.80
SUBTOTAL........... 110.80
TAX.................. 0.00
TOTAL.............. $110.80
REWARDS ID 7734120
POINTS EARNED 284
THANK YOU""",
        "diesel",
        28.417,
        price=3.899,
        cost=110.8,
    ),
    Receipt(
        """\
HIGH DESERT FUEL
STORE 0117
PREPAY CASH $100.00
PUMP 05 UNLEADED
VOLUME 21.034G
PRICE  3.459/G
AMOUNT $72.76
CHANGE DUE $27.24""",
        "gasoline",
        21.034,
        price=3.459,
        cost=72.76,
        place="HIGH DESERT FUEL",
    ),
    Receipt(
        """\
Bramble Lane Filling Station
VAT Reg No 123 4567 89
Site 4471  Till 2
Pump 6
Diesel           52.18 Litres
@ 147.9p/L       £77.17
VAT @20%         £12.86
Total            £77.17
Card **** 4471
Auth code 009812""",
        "diesel",
        52.18,
        price=1.479,
        cost=77.17,
        place="Bramble Lane Filling Station",
        chat=BRITISH,
    ),
    Receipt(
        """\
GIDGEE ROADHOUSE
ABN 51 824 753 556
LOT 7 GREAT NORTH HWY
TAX INVOICE 30118
DIESEL
LITRES     91.42
C/L       198.9
TOTAL   $181.83
GST INCL  $16.53
FUEL DISCOUNT 4C/L APPLIED""",
        "diesel",
        91.42,
        price=1.989,
        cost=181.83,
        place="GIDGEE ROADHOUSE",
        chat=AUSTRALIAN,
    ),
    Receipt(
        """\
CARDLOCK
SITE 118 MERIDIAN
CARD 7781 VEH 12 DRV 0044
ODO 51,488
DSL 31.204 GAL
UNIT 3.719
EXT 116.05
TRACE 882310""",
        "diesel",
        31.204,
        price=3.719,
        cost=116.05,
        odometer=51488,
        place="CARDLOCK",
    ),
    Receipt(
        """\
*** SALES RECEIPT ***
LOST MULE MARKET
07/09/2026 06:44 PM
PUMP# 4
REGULAR
18.220 GAL @ $3.299/GAL
FUEL TOTAL $60.11
1 COFFEE LG $2.49
1 JERKY $7.99
TOTAL $70.59
VISA XXXX1187
APPROVED 445120""",
        "gasoline",
        18.22,
        price=3.299,
        cost=60.11,
        place="LOST MULE MARKET",
    ),
    Receipt(
        """\
Station: Cedar Bend Fuel
Pump: 7
Product: Diesel
Qty: 29.310 gal
Unit Price: 3.759
Total: 110.18
Odometer: 51402
Driver ID: 4410""",
        "diesel",
        29.31,
        price=3.759,
        cost=110.18,
        odometer=51402,
        place="Cedar Bend Fuel",
    ),
    Receipt(
        """\
WAYPOST FUELS
DIESEL  26.31 GAL
PRICE    3.879
LESS 10C/GAL DISC -2.63
TOTAL   99.43
SAVED 2.63 TODAY
MEMBER 88120""",
        "diesel",
        26.31,
        price=3.879,
        cost=99.43,
        place="WAYPOST FUELS",
    ),
    Receipt(
        """\
Rutland Moor Services
Ermine Rd, Stoke PE9 4TX
Tel: 01780 555 0117
Unleaded
41.07 L
1.389/L
£57.05
Receipt 8812""",
        "gasoline",
        41.07,
        price=1.389,
        cost=57.05,
        place="Rutland Moor Services",
        chat=BRITISH,
    ),
    Receipt(
        """\
DATE 07/10/26 TIME 08:14
PUMP GRADE      GALLONS
03   UNLEADED   14.211
PRICE/GAL  FUEL SALE
$3.419     $48.59""",
        "gasoline",
        14.211,
        price=3.419,
        cost=48.59,
    ),
    Receipt(
        """\
ADBLUE BULK
PUMP 9
LITRES 14.20
PRICE 0.999
TOTAL 14.19""",
        "def",
        14.2,
        price=0.999,
        cost=14.19,
        chat=BRITISH,
    ),
    Receipt(
        """\
R&J'S CORNER STORE
112 W 3RD ST COTTON GAP ID 83318
TERM ID 0012
SEQ 4417
UNLD 87
GAL 16.771
$/G 3.289
$ 55.16
AUTH 120113""",
        "gasoline",
        16.771,
        price=3.289,
        cost=55.16,
        place="R&J'S CORNER STORE",
    ),
    Receipt(
        """\
DIESEL FUEL RECEIPT
Merchant: Aspen Gap Fuel
Date: Jul 10, 2026
Invoice: 2026-4471
Gallons: 30.5
Price per gallon: $3.80
Total: $115.90
Mileage: 51,377""",
        "diesel",
        30.5,
        price=3.8,
        cost=115.9,
        odometer=51377,
        place="Aspen Gap Fuel",
    ),
    Receipt(
        """\
TOLL RIDGE STORES
fuel 33.92 L
cents per litre 171.9
amount 58.31
loyalty -1.36""",
        None,
        33.92,
        price=1.719,
        cost=58.31,
        place="TOLL RIDGE STORES",
        chat=AUSTRALIAN,
    ),
    Receipt(
        """\
OTTER BAR GAS
PUMP 3 2026-07-10 19:44
REGULAR 58.204 L
$1.619/L
CAD 94.23
HST 10.84
TXN 77120""",
        "gasoline",
        58.204,
        price=1.619,
        cost=94.23,
        chat=CANADIAN,
    ),
]


@pytest.mark.parametrize("given", TICKETS, ids=[each.text.split("\n")[0] for each in TICKETS])
def test_a_tickets_loads_are_its_labelled_lines(given: Ticket, reads: Reader) -> None:
    verdict = reads(given.text, given.chat)
    assert isinstance(verdict, Facts), verdict
    (weighing,) = verdict.entries
    assert isinstance(weighing, Weighing)
    assert {place: load.value for place, load in weighing.loads.items()} == given.loads
    assert (weighing.place, weighing.ticket) == (given.place, given.ticket)
    assert (weighing.cost.value if weighing.cost else None) == given.cost


@pytest.mark.parametrize("given", RECEIPTS, ids=[each.text.split("\n")[0] for each in RECEIPTS])
def test_a_receipts_fuel_is_its_labelled_lines(given: Receipt, reads: Reader) -> None:
    verdict = reads(given.text, given.chat)
    assert isinstance(verdict, Facts), verdict
    (fill,) = verdict.entries
    assert isinstance(fill, Fill)
    stated = (fill.volume, fill.unit_price, fill.cost, fill.odometer)
    wanted = [given.volume, given.price, given.cost, given.odometer]
    assert [each and each.value for each in stated] == wanted
    assert (fill.product, fill.place) == (given.product, given.place)


@pytest.mark.parametrize(
    "text", ["took on 18.2 gal reg 3.199 total 58.22 51,360", "reg 18.2 gal $58.22, 51,360"]
)
def test_regular_beside_a_volume_is_a_fuel_and_no_register(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road(odometer=Quantity(51_200, "mi"), fuel="gasoline"))
    assert isinstance(verdict, Facts)
    (fill,) = verdict.entries
    assert isinstance(fill, Fill)
    assert (fill.product, fill.volume) == ("gasoline", Quantity(18.2, "gal"))
    assert (fill.odometer, fill.cost) == (Quantity(51_360, "mi"), Quantity(58.22, "USD"))


@pytest.mark.parametrize(
    ("text", "loads"),
    [
        ("scale ticket 4990 6200 11500 22690", [4990, 6200, 11500, 22690]),
        ("ticket 5190 6770 9040 21000", [5190, 6770, 9040, 21000]),
        ("tkt 4990 6200 11190", [4990, 6200, 11190]),
    ],
)
def test_loads_that_make_their_gross_have_no_number_before_them(
    text: str, loads: list[float], reads: Reader
) -> None:
    verdict = reads(text, AMERICAN)
    assert isinstance(verdict, Facts)
    (weighing,) = verdict.entries
    assert isinstance(weighing, Weighing)
    assert [load.value for load in weighing.loads.values()] == loads
    assert weighing.ticket is None


def test_a_number_before_loads_is_the_tickets(reads: Reader) -> None:
    verdict = reads("ticket 88231 4990 6200 11500 22690", AMERICAN)
    assert isinstance(verdict, Facts)
    (weighing,) = verdict.entries
    assert isinstance(weighing, Weighing)
    assert weighing.ticket == "88231"
    assert len(weighing.loads) == 4


@pytest.mark.parametrize(
    ("text", "ticket", "gross"),
    [
        ("ticket says 40771 steer 5,280 drive 6,900 trailer 9,000", "40771", None),
        ("slip says 884213 front 5,280 rear 6,900 trailer 9,000 gross 21,180", "884213", 21_180),
        ("ticket says 21180 steer 5,280 drive 6,900 trailer 9,000", None, 21_180),
    ],
)
def test_a_number_that_a_ticket_says_before_all_the_loads(
    reads: Reader, text: str, ticket: str | None, gross: float | None
) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts)
    (weighing,) = read.entries
    assert isinstance(weighing, Weighing)
    assert weighing.ticket == ticket
    assert (weighing.loads["gross"].value if "gross" in weighing.loads else None) == gross
    assert weighing.loads["steer"].value == 5_280


def test_letters_behind_a_tickets_number_are_of_it(reads: Reader) -> None:
    read = reads("ticket no. 5582-A, $16.75, gross 21,300", on_the_road())
    assert isinstance(read, Facts)
    assert [each.ticket for each in read.entries if isinstance(each, Weighing)] == ["5582-A"]
    read = reads("ticket 5582 - steer 5,240 drive 6,900", on_the_road())
    assert isinstance(read, Facts)
    assert [each.ticket for each in read.entries if isinstance(each, Weighing)] == ["5582"]


def test_a_field_of_a_ticket_tells_how_the_trailer_stood_and_no_unhitching(reads: Reader) -> None:
    lines = "OTTER CREEK GRAIN\nScale ticket 51882\nVehicle: camper only, unhitched"
    verdict = reads(f"{lines}\nGross 7,420 lb\nPaid $10.00", AMERICAN)
    assert isinstance(verdict, Facts)
    (weighing,) = verdict.entries
    assert isinstance(weighing, Weighing)
    assert (weighing.rig, weighing.trailer, weighing.ticket) == ("trailer", "camper", "51882")


@pytest.mark.parametrize(
    ("text", "loads"),
    [
        (
            "AXLE 1 (STEER)  5,270\nAXLE 2 (DRIVE)  6,850\nAXLE 3 (TRAILER 1)  4,720\n"
            "AXLE 4 (TRAILER 2)  4,690\nGROSS  21,530",
            {"steer": 5270, "drive": 6850, "trailer_1": 4720, "trailer_2": 4690, "gross": 21530},
        ),
        (
            "Tow vehicle, both axles... 5,460 lb\nTrailer axles... 3,370 lb\nGross... 8,830 lb",
            {"truck": 5460, "trailer": 3370, "gross": 8830},
        ),
    ],
)
def test_axles_are_told_in_brackets_and_together(
    text: str, loads: dict[str, float], reads: Reader
) -> None:
    verdict = reads(text, AMERICAN)
    assert isinstance(verdict, Facts)
    (weighing,) = verdict.entries
    assert isinstance(weighing, Weighing)
    assert {place: load.value for place, load in weighing.loads.items()} == loads


@pytest.mark.parametrize(
    ("text", "fee"),
    [
        ("scaled at the quarry $10, 5,340 6,920 9,280 21,540", 10),
        ("weighed at the quarry $10: 5,340 6,920 9,280", 10),
        ("weighed at the quarry, pie $10: 5,340 6,920 9,280", None),
        ("weighed 5,340 6,920 9,280, pie at the diner $10", None),
    ],
)
def test_money_behind_the_place_of_a_scale_is_its_fee(
    text: str, fee: float | None, reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    costs = [each.cost for each in verdict.entries if isinstance(each, Weighing)]
    assert costs == [None if fee is None else Quantity(fee, "USD")]

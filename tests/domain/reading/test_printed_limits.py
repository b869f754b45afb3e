"""What labels and brochures print: a part's stamp, a payload in other words, a dry weight."""

from __future__ import annotations

import pytest

from tests.domain.reading.chats import Reader
from tests.domain.reading.test_told_at_the_scale import told


@pytest.mark.parametrize(
    ("text", "stated"),
    [
        (
            "placard: total capacity 1,842 lbs",
            ["rating rating=payload subject=truck value=1842"],
        ),
        (
            "yellow sticker says 2,914 for people and cargo",
            ["rating rating=payload subject=truck value=2914"],
        ),
        ("door label: gross 11,500 lbs", ["rating rating=gvwr subject=truck value=11500"]),
        (
            "max nose weight on the towbar is 100kg",
            ["rating rating=tongue subject=hitch value=100"],
        ),
        (
            "caravan on the towbar, nose weight 92 kg",
            ["hitch action=hitched", "weighing tongue=92"],
        ),
        (
            "coupler stamped 14,000 GTW 2,100 tongue",
            [
                "rating rating=tow subject=coupler value=14000",
                "rating rating=tongue subject=coupler value=2100",
            ],
        ),
        (
            "tongue 1,140 lb, ball stamped 10,000 lb",
            ["weighing tongue=1140", "rating rating=tow subject=ball value=10000"],
        ),
        (
            "steer 5,180 drive 6,900, ball is stamped 10,000",
            ["weighing drive=6900 steer=5180", "rating rating=tow subject=ball value=10000"],
        ),
        (
            "UVW 7,640 CCC 2,355 GVWR 9,995",
            [
                "rating rating=curb subject=trailer value=7640",
                "rating rating=payload subject=trailer value=2355",
                "rating rating=gvwr subject=trailer value=9995",
            ],
        ),
        (
            "GVM 3,250 tare 2,420 ATM 3,500",
            [
                "rating rating=gvwr subject=truck value=3250",
                "rating rating=curb subject=truck value=2420",
                "rating rating=gvwr subject=trailer value=3500",
            ],
        ),
        (
            "max load dual 2,910 single 3,195",
            [
                "rating note=dual rating=tyre_load subject=tyres value=2910",
                "rating note=single rating=tyre_load subject=tyres value=3195",
            ],
        ),
        (
            "max load 3,195 single 2,910 dual",
            [
                "rating note=single rating=tyre_load subject=tyres value=3195",
                "rating note=dual rating=tyre_load subject=tyres value=2910",
            ],
        ),
        (
            "hitch sticker: weight carrying 1,000 tongue 10,000 trailer",
            [
                "rating note=carrying rating=tongue subject=hitch value=1000",
                "rating note=carrying rating=tow subject=hitch value=10000",
            ],
        ),
        (
            "FRONT LT275/70R18E 60 PSI REAR LT275/70R18E 65 PSI",
            [
                "rating rating=pressure subject=tyres value=60",
                "rating rating=pressure subject=tyres value=65",
            ],
        ),
        (
            "front 60 psi rear 65 psi",
            [
                "observation position=front subject=tyre value=60",
                "observation position=rear subject=tyre value=65",
            ],
        ),
        (
            "275/70R18 front left 58 psi",
            ["observation position=left front subject=tyre value=58"],
        ),
        ("max load 3,195", ["rating rating=payload subject=truck value=3195"]),
    ],
)
def test_each_is_of_what_it_is_printed_on(reads: Reader, text: str, stated: list[str]) -> None:
    assert told(reads, text) == stated


@pytest.mark.parametrize(
    ("text", "stated"),
    [
        (
            "camper: dry 7,140, hitch 1,020",
            ["rating rating=curb subject=trailer trailer=camper value=7140"],
        ),
        (
            "camper dry weight 7,140 tongue 1,020",
            ["rating rating=curb subject=trailer trailer=camper value=7140"],
        ),
        ("hitch weight dry is 1,020", ["silent"]),
        ("the new camper: 7,140 dry, 1,020 on the hitch", ["silent"]),
        (
            "camper dry 7,140, hitch 12,000",
            [
                "rating rating=curb subject=trailer trailer=camper value=7140",
                "rating rating=tow subject=hitch value=12000",
            ],
        ),
        ("tongue 1,140 with the tanks dry", ["weighing tongue=1140"]),
        (
            "steer 5,180 drive 6,900, tongue 1,140, tanks dry",
            ["weighing drive=6900 steer=5180 tongue=1140"],
        ),
    ],
)
def test_what_it_weighs_dry_is_no_limit_and_was_not_weighed(
    reads: Reader, text: str, stated: list[str]
) -> None:
    assert told(reads, text) == stated


@pytest.mark.parametrize(
    ("text", "stated"),
    [
        ("payload on ray's is 1,400", ["silent"]),
        ("gvwr on Ned's was 10,000", ["silent"]),
        (
            "payload on juniper's is 2,914",
            ["rating rating=payload subject=truck truck=Juniper value=2914"],
        ),
        ("gross on tuesday's was 21,320", ["weighing at=2026-07-07 gross=21320"]),
    ],
)
def test_what_is_on_somebody_elses_is_not_ours(reads: Reader, text: str, stated: list[str]) -> None:
    assert told(reads, text) == stated

"""The grammar of lengths: every form that is read, with its exact value, and every refused form, with the reason.

The wording of the forms is common practice of the trade, no source; the values follow from 1 in = 25.4 mm (definition).
Sheet gauges: US Manufacturers' Standard Gauge, 10 ga = 0.1345 in, 11 ga = 0.1196 in, 14 ga = 0.0747 in (from memory).
"""

from fractions import Fraction

import pytest

from estimator.read.lengths import Length, read_length, say_length
from estimator.read.numbers import Refused

GAUGES_IN = {10: Fraction("0.1345"), 11: Fraction("0.1196"), 14: Fraction("0.0747")}

# text | value in mm (bare numbers count as mm here, bare fractions as inches) | unit named | label
ACCEPTED = """
3/8 | 9.525 | |
1/2 | 12.7 | |
15/16 | 23.8125 | |
3/64 | 1.190625 | |
1-1/2 | 38.1 | |
1 1/2 | 38.1 | |
1½ | 38.1 | |
1 ½ | 38.1 | |
1-½ | 38.1 | |
½" | 12.7 | in |
⅜ | 9.525 | |
1⅛ in | 28.575 | in |
3⁄8 | 9.525 | |
1-1/2" | 38.1 | in |
1 1/2 in | 38.1 | in |
1.1/2" | 38.1 | in |
2.1/2” | 63.5 | in |
3 1/8" | 79.375 | in |
3-1/2" | 88.9 | in |
3/8-inch | 9.525 | in |
3/8in. | 9.525 | in |
3/8 inches | 9.525 | in |
0.375 | 0.375 | |
.375" | 9.525 | in |
0.375in | 9.525 | in |
1.125" | 28.575 | in |
0.079 in | 2.0066 | in |
0.25 Inch | 6.35 | in |
10." | 254 | in |
12 | 12 | |
12. | 12 | |
12.5 | 12.5 | |
12,5 | 12.5 | |
0,8 cm | 8 | cm |
1,5 mm | 1.5 | mm |
10mm | 10 | mm |
10 MM | 10 | mm |
10 Mm. | 10 | mm |
10-mm | 10 | mm |
10 millimetres | 10 | mm |
10 мм | 10 | mm |
10毫米 | 10 | mm |
10 | 10 | |
１２mm | 12 | mm |
5 cm | 50 | cm |
2.5m | 2500 | m |
2.5 metres | 2500 | m |
1,234.5 | 1234.5 | |
1.234,5 | 1234.5 | |
1 200,5 | 1200.5 | |
1 200 | 1200 | |
1,234,567 | 1234567 | |
1234.500 | 1234.5 | |
5'-3 1/2" | 1612.9 | in |
5' 3" | 1600.2 | in |
5'3-1/2" | 1612.9 | in |
5’-3½” | 1612.9 | in |
5'-3 | 1600.2 | in |
13'-0" | 3962.4 | in |
7'-3/4" | 2152.65 | in |
0'-8" | 203.2 | in |
5' | 1524 | ft |
5ft | 1524 | ft |
5.5 ft | 1676.4 | ft |
5 ft 3 in | 1600.2 | in |
5 feet | 1524 | ft |
3 Zoll | 76.2 | in |
1/2 pulg | 12.7 | in |
3/4 pol. | 19.05 | in |
2 pouces | 50.8 | in |
2 cale | 50.8 | in |
2 дюйма | 50.8 | in |
t=12 | 12 | | thickness
t = 12 mm | 12 | mm | thickness
T12 | 12 | | thickness
THK 12 | 12 | | thickness
12 THK | 12 | | thickness
12mm thk. | 12 | mm | thickness
12t | 12 | | thickness
1/2" thk | 12.7 | in | thickness
PL 3/8 | 9.525 | | thickness
PL10 | 10 | | thickness
3/8 PL | 9.525 | | thickness
20PL | 20 | | thickness
BASEPLATE 20 | 20 | | thickness
Plate 1/2" | 12.7 | in | thickness
5mm Plate | 5 | mm | thickness
8 mm Stark | 8 | mm | thickness
Blech 8 | 8 | | thickness
s=10 | 10 | | thickness
ép. 10 | 10 | | thickness
esp. 10 mm | 10 | mm | thickness
sp. 10 | 10 | | thickness
chapa 1/4" | 6.35 | in | thickness
Лист8 | 8 | | thickness
-- 30 | 30 | | thickness
— 30 | 30 | | thickness
δ=10 | 10 | | thickness
L=1200 | 1200 | | length
1200 lg | 1200 | | length
300 mm long | 300 | mm | length
150 wide | 150 | | width
Ø22 | 22 | | diameter
30 cm OD. | 300 | cm | diameter
12 mm typ. | 12 | mm |
12 ±0.5 | 12 | |
10 ga | 3.4163 | in | thickness
10 gauge | 3.4163 | in | thickness
ga 10 | 3.4163 | in | thickness
11 gauge (0.12", 3mm) | 3.03784 | in | thickness
1/4 6,3 MM | 6.35 | in |
3/4" (19MM) | 19.05 | in |
'12 | 12 | |
`12 | 12 | |
"""

REFUSED = """
1,234 | a mark before exactly three digits can be a decimal or a thousands mark
1.234 | a mark before exactly three digits can be a decimal or a thousands mark
1.125 mm | a mark before exactly three digits can be a decimal or a thousands mark
12,125 | a mark before exactly three digits can be a decimal or a thousands mark
1'200 | the ' can mean feet or group the thousands
12-18mm | it is a range
12 - 18 | it is a range
26-30" | it is a range
12 to 18 | it is a range
10 bis 12 | it is a range
12..18 | it is a range
12~18 | it is a range
12÷18 | it is a range
1/4-3/8 | it is a range
1/4" - 1/2" | it is a range
-12 | it is below zero
-3/8 | it is below zero
- 12 mm | it is below zero
−12 | it is below zero
~12 | it is approximate
ca. 12 | it is approximate
approx 12 mm | it is approximate
etwa 12 | it is approximate
12? | it is marked as doubtful
12 mm ?? | it is marked as doubtful
<12 | it is a limit, not a length
≥ 10 mm | it is a limit, not a length
12 mm max | it is a limit, not a length
min. 8 min | it is a limit, not a length
1e3 | it is written with an exponent
1.2e+03 | it is written with an exponent
l0mm | the letter before the figure has no single meaning
1O mm | a letter stands among the digits
1l mm | a letter stands among the digits
L 1200 | the letter before the figure has no single meaning
s 10 | the letter before the figure has no single meaning
d 20 | the letter before the figure has no single meaning
16 swg | wire gauges differ from sheet gauges
16 SWG plate | wire gauges differ from sheet gauges
12 m² | the unit is not a length
12 m2 | the unit is not a length
25 kg | the unit is not a length
10 lbs | the unit is not a length
30° | the unit is not a length
45 deg | the unit is not a length
50 % | the unit is not a length
10x150x300 | it holds several dimensions
10 x 150 | it holds several dimensions
300*200 | it holds several dimensions
10×150 | it holds several dimensions
10 mm x 2 m | it holds several dimensions
12 16 | it holds two values
12, 16 | it holds two values
12;16 | it holds two values
12 & 16 | it holds two values
10+10 | it holds two values
2 3 | it holds two values
see dwg | it holds no figure
TBC | it holds no figure
from DXF | it holds no figure
as per drawing | it holds no figure
? | it holds no figure
mm | it holds no figure
#REF | the # can mean a gauge or a number
#10 | the # can mean a gauge or a number
1/3 | a shop fraction is in halves, quarters, 8ths, 16ths, 32nds or 64ths
3/10 | a shop fraction is in halves, quarters, 8ths, 16ths, 32nds or 64ths
⅓ | a shop fraction is in halves, quarters, 8ths, 16ths, 32nds or 64ths
11/2 | the upper figure of the fraction is not below the lower one; a space may be missing
8/8 | the upper figure of the fraction is not below the lower one; a space may be missing
0/8 | the upper figure of the fraction is not below the lower one; a space may be missing
3/8 mm | a fraction of a mm is not a shop size
1 1/2 cm | a fraction of a cm is not a shop size
5'-14" | the inches after the feet reach 12 or more
5' 12" | the inches after the feet reach 12 or more
5.5'-3" | feet with decimals are followed by inches
99 ga | it is a gauge that the sheet-gauge table does not hold
0.190 (3/16) thick | its two notations, 0.19 in and 3/16 in, are not the same length
2mm (14 ga) | its two notations, 2 mm and 0.0747 in, are not the same length
6mm/1/4in | its two notations, 6 mm and 1/4 in, are not the same length
10mm (3/8") | its two notations, 10 mm and 3/8 in, are not the same length
12 mm (1/2 in) | its two notations, 12 mm and 1/2 in, are not the same length
12, | it ends in a comma
3\\8 | it is not written as a length
12mm* | it is not written as a length
10² | it is not written as a length
10 mm S355 | it is not written as a length
1 2 3 | it holds two values
12 yards | it is not written as a length
12 µm | it is not written as a length
2 mils | it is not written as a length
10 mm left | it is not written as a length
12mm12 | it is not written as a length
t=12 long | the letter before the figure has no single meaning
"""


def rows(table: str) -> list[list[str]]:
    return [[part.strip() for part in line.split("|")] for line in table.strip().splitlines()]


def accepted() -> list[list[str]]:
    return [[*row, ""][:4] for row in rows(ACCEPTED)]


@pytest.mark.parametrize(("text", "mm", "unit", "label"), accepted())
def test_an_accepted_form_reads_to_its_exact_value(text: str, mm: str, unit: str, label: str) -> None:
    read = read_length(text, None, GAUGES_IN)
    assert isinstance(read, Length), read
    assert read.in_mm("in" if read.is_fraction else "mm") == Fraction(mm)
    assert (read.unit or "", read.label) == (unit, label)


@pytest.mark.parametrize(("text", "reason"), rows(REFUSED))
def test_a_refused_form_says_why(text: str, reason: str) -> None:
    read = read_length(text, None, GAUGES_IN)
    assert isinstance(read, Refused), read
    assert read.reason == reason


def test_the_tables_are_as_long_as_promised() -> None:
    assert len(accepted()) >= 80
    assert len(rows(REFUSED)) >= 80


@pytest.mark.parametrize(
    ("text", "decimal", "value"),
    [("1,234", ",", "1.234"), ("1,234", ".", "1234"), ("1.234", ".", "1.234"), ("1.234", ",", "1234")],
)
def test_three_digits_after_a_mark_follow_the_evidence_of_the_list(text: str, decimal: str, value: str) -> None:
    read = read_length(text, decimal)
    assert isinstance(read, Length)
    assert read.value == Fraction(value)


@pytest.mark.parametrize(("text", "decimal"), [("12,5", "."), ("12.5", ","), ("1.234,5", ".")])
def test_a_decimal_mark_against_the_rest_of_the_list_is_refused(text: str, decimal: str) -> None:
    read = read_length(text, decimal)
    assert isinstance(read, Refused)
    assert read.reason == "its decimal mark is not the one that the rest of the list uses"


@pytest.mark.parametrize("text", ["1.1/2", "5'-3", "10 ga", '3/4" (19MM)', "1 200", "12.", "12 ±0.5", "12,5"])
def test_what_had_to_be_interpreted_is_not_plain_and_says_how(text: str) -> None:
    read = read_length(text, None, GAUGES_IN)
    assert isinstance(read, Length)
    assert not read.plain
    assert read.remark


def test_a_length_is_said_as_people_of_its_unit_write_it() -> None:
    assert [say_length(Fraction(19, 8), "in"), say_length(Fraction("9.525"), "mm")] == ["2-3/8 in", "9.525 mm"]


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("99 ga (3 mm)", "it is a gauge that the sheet-gauge table does not hold"),
        ("5' 1/0\"", "a shop fraction is in halves, quarters, 8ths, 16ths, 32nds or 64ths"),
        ("1" * 200, "it is too long for a length"),
    ],
)
def test_a_fault_inside_a_longer_notation_is_the_reason_of_the_whole(text: str, reason: str) -> None:
    read = read_length(text, None, GAUGES_IN)
    assert isinstance(read, Refused)
    assert read.reason == reason


def test_a_length_prints_as_it_is_said() -> None:
    assert [str(read_length(text)) for text in ("12 mm", '1-1/2"')] == ["12 mm", "1-1/2 in"]

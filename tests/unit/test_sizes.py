"""Size strings of shop lists. Their forms are common practice, no source; each expected reading was written by hand."""

from fractions import Fraction

import pytest

from estimator.read.numbers import Refused
from estimator.read.size import Size
from estimator.read.sizes import read_size

ACCEPTED = """
10x150x300 | rectangle 300 x 150, 10 thick
1400*1400*2 mm | rectangle 1400 mm x 1400 mm, 2 mm thick
PLATE 350X350X50 | rectangle 350 x 350, 50 thick
125 x 80 x 8 | rectangle 125 x 80, 8 thick
20*2*1300 | rectangle 1300 x 20, 2 thick
10 × 150 × 300 | rectangle 300 x 150, 10 thick
лист 10х150х300 | rectangle 300 x 150, 10 thick
— 10x150x300 | rectangle 300 x 150, 10 thick
-10х150х300 | rectangle 300 x 150, 10 thick
钢板 10*200*300 | rectangle 300 x 200, 10 thick
thép tấm 10x200x300 | rectangle 300 x 200, 10 thick
t10x150x300 | rectangle 300 x 150, 10 thick
10t x 150 x 300 | rectangle 300 x 150, 10 thick
150w x 300l x 10t | rectangle 300 x 150, 10 thick
2000 x 1000 x 0,5 mm | rectangle 2000 mm x 1000 mm, 0.5 mm thick
PL3/8x6x12 | rectangle 12 in x 6 in, 3/8 in thick
PL3/8 x 6 x 0'-8" | rectangle 8 in x 6 in, 3/8 in thick
PL 1-1/2 x 12 x 1'-3 1/2" | rectangle 15-1/2 in x 12 in, 1-1/2 in thick
1/4" x 4' x 8' | rectangle 8 ft x 4 ft, 1/4 in thick
PL3/8"X6 7/8" | rectangle 6-7/8 in, 3/8 in thick
PLT10*160 | rectangle 160, 10 thick
945x180mm | rectangle 945 mm x 180 mm
2x1m | rectangle 2 m x 1 m
FB 50x10 | flat 50, 10 thick
MS FLAT 50*12 | flat 50, 12 thick
Flat Bar 120x10 | flat 120, 10 thick
Flat, 1/4" X 3-1/2" | flat 3-1/2 in, 1/4 in thick
FLT10*90 | flat 90, 10 thick
FB 50x10x300 | flat 300 x 50, 10 thick
Płaskownik 50x8 | flat 50, 8 thick
5mm Plate | 5 mm thick
1/4 Hot rolled Steel | 1/4 in thick
CHAPA 6,3mm | 6.3 mm thick
10 THK CHEQUER PLATE | 10 thick
BASEPLATE 20 | 20 thick
Лист8 | 8 thick
Blech 10 S235JR | 10 thick
3/8" plate A36 | 3/8 in thick
PL 3/4" (19MM) | 3/4 in thick
380mm-circle-disc | disc 380 mm
30 cm OD. | disc 30 cm
disc Ø300x20 | disc 300, 20 thick
ring 400x250x25 | ring 400 x 250, 25 thick
Ring 400/250x25 | ring 400 x 250, 25 thick
SHS 40x40x3x1200 | square tube 40 x 40, 3 thick
HSS4x4x1/4 | square tube 4 in x 4 in, 1/4 in thick
L 2” x 2” x 1/4“ | angle 2 in x 2 in, 1/4 in thick
L3X3X1/4 | angle 3 in x 3 in, 1/4 in thick
PIPE 114.3x6.3 | pipe 114.3, 6.3 thick
Round bar 25 | round bar 25
Round bar 25x300 | round bar 25
SQ 20 | square bar 20
sq bar 20x20x300 | square bar 20
TS 4x4x1/4 | square tube 4 in x 4 in, 1/4 in thick
round tube 50x3 | pipe 50, 3 thick
PIPE 500x10x300 | pipe 500, 10 thick
L 100x100x10x50 | angle 100 x 100, 10 thick
L 100x75x10 | angle 100 x 75, 10 thick
FB 100x12x50 | flat 50 x 100, 12 thick
FB 1200x100x12 | flat 1200 x 100, 12 thick
RH300*150*6.5*9 | beam 300 x 150, 9 thick, web 6.5
H 200x100x5.5x8x6000 | beam 200 x 100, 8 thick, web 5.5
[150x75x6.5x10 | channel 150 x 75, 10 thick, web 6.5
U 80x45x6 | channel 80 x 45, 6 thick
UB 203x133x25 | beam 203 x 133, 25 kg/m
203x133 UB 25 | beam 203 x 133, 25 kg/m
PFC 150x75x18 | channel 150 x 75, 18 kg/m
bearing plate 300x300x25 | rectangle 300 x 300, 25 thick
BASEPLATE 20 - 300x300 | rectangle 300 x 300, 20 thick
1/4" plate 6" x 8" | rectangle 8 in x 6 in, 1/4 in thick
Blech 10 mm, 300 x 200 | rectangle 300 mm x 200 mm, 10 mm thick
10 PL x 150 x 300 | rectangle 300 x 150, 10 thick
50 x 50 x 3 SHS x 700 | square tube 50 x 50, 3 thick
300 L x 200 W x 10 T | rectangle 300 x 200, 10 thick
300 dia x 10 thk | disc 300, 10 thick
1-1/2" OD x 0.156" wall round tube | pipe 1-1/2 in, 0.156 in thick
FB 50x10 L=300 | flat 300 x 50, 10 thick
SHS 50x50x3 - 1200 long | square tube 50 x 50, 3 thick
washer plate 60x60x8 | rectangle 60 x 60, 8 thick
PL 10x150x300 4xØ22 | rectangle 300 x 150, 10 thick, 4 holes of 22
10x150x300, 2-Ø18 holes | rectangle 300 x 150, 10 thick, 2 holes of 18
PL1/2x6x12 w/ (4) 7/8" holes | rectangle 12 in x 6 in, 1/2 in thick, 4 holes of 7/8 in
300x300x20 4 No. 22 dia holes | rectangle 300 x 300, 20 thick, 4 holes of 22
sq bar 20 | square bar 20
"""

REFUSED = """
3*50*50*800 | it holds more than three sizes and no word for a section
(20*20*3)*1455 | it says more than one size
Ø82,5X22,2 | a diameter among its sizes leaves open whether it is a disc, a ring or a bar
150mm x 3000mm x 1.5m | its sizes are in different units
10mm x 6in x 12in | its sizes are in different units
PLATE 1100 | a figure after the word for plate is too large for a thickness
20x20x300 | two of its sizes are equal and smallest, as in a square bar
from DXF | it holds no size
12 | one size alone, and no word says which it is
10 mm S355 | one size alone, and no word says which it is
6+PL3/8+A36 | it says more than one size
20PL 1220mm | it says more than one size
M16x60 | it is a bought part, not steel to cut
Plate 12 300x200 | it says more than one size
PL10x150-300 | it says more than one size
plate bolt M16x40 | it is a bought part, not steel to cut
T-BAR 100x100x10 | it is a T, a bulb flat or another section whose cut does not follow from its sizes
bulb flat 120x8 | it is a T, a bulb flat or another section whose cut does not follow from its sizes
T 100x100x10 | the size that is called the thickness is not the smallest
ROUND BAR 100x50 | which of its two sizes is the bar and which the length is not said
50x10x100x100 angle | which of its sizes is the length is not said
C 150x75x20x3.2 | its sizes are not in the order depth x flange x web x flange thickness
PL 10x150x300 2 slots 18x30 | it names slots or threads, which no column of holes can hold
PL 10x150x300 4xM16 | it names slots or threads, which no column of holes can hold
PL 10x150x300 4xØ22 2xØ18 | it names holes of several sizes, or one that is no length
Bolt 3/8 | it is a bought part, not steel to cut
6mm/1/4in plate | its two notations, 6 mm and 1/4 in, are not the same length
PL 1,234x100x200 | a mark before exactly three digits can be a decimal or a thousands mark
FB 50x50 | a flat bar with two equal sizes
FB 50 | a flat bar needs a width and a thickness
"""

NO_THICKNESS = ["200UB25.4", "beam 30B1", "W12x26", "UB 203x133", 'pipe 2" sch 40', "C10x15.3", "HEA 200", "IPE 160"]


def rows(table: str) -> list[list[str]]:
    return [[part.strip() for part in line.split("|")] for line in table.strip().splitlines()]


@pytest.mark.parametrize(("text", "said"), rows(ACCEPTED))
def test_a_size_string_reads_as_a_person_would(text: str, said: str) -> None:
    read = read_size(text)
    assert isinstance(read, Size), read
    assert str(read) == said


@pytest.mark.parametrize(("text", "reason"), rows(REFUSED))
def test_a_size_string_with_no_single_reading_is_refused(text: str, reason: str) -> None:
    read = read_size(text)
    assert isinstance(read, Refused), read
    assert read.reason == reason


@pytest.mark.parametrize("text", NO_THICKNESS)
def test_a_rolled_section_named_by_height_or_weight_gives_no_thickness(text: str) -> None:
    read = read_size(text)
    assert isinstance(read, Size)
    assert read.shape is not None
    assert read.thickness is None
    assert not read.plain


def test_the_length_of_a_section_is_kept_apart_from_its_sizes() -> None:
    read = read_size("SHS 40x40x3x1200")
    assert isinstance(read, Size)
    assert read.piece_length is not None
    assert read.piece_length.value == Fraction(1200)

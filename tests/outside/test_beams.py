import math
import unittest

import beams

LIGHT = {"on": "M4", "off": "M5", "cut": 80.0, "mark": 20.0}
LASER = {"own_lines": [], "light": LIGHT}
PEN = {"own_lines": [], "lift": {"height": [5.0, 0.0]}}
PLOTTER = {"own_lines": [], "steps_per_mm": 40.0}
PLATE = {
    "name": "plate",
    "outline": [[20, 20, 0], [120, 20, 0], [120, 80, 0], [20, 80, 0]],
    "openings": [],
    "bores": [{"centre": [60, 50], "diameter": 20, "depth": None}],
    "marks": [[[30, 30, 0], [50, 30, 0]]],
}
ENTRY = {"units": "mm", "origin": [0, 0]}
KERF = 0.2
BURNT = """(PLATE)
G17 G21 G90 G94 G40 G49 G80
M5 S0
G0 X30 Y30
M4 S20
G1 X50 F3600
M5 S0
G0 X69.9 Y50
M4 S80
G3 X50.1 Y50 I-9.9 J0 F720
X69.9 Y50 I9.9 J0
M5 S0
G0 X20 Y19.9
M4 S80
G1 X120
G3 X120.1 Y20 I0 J0.1
G1 Y80
G3 X120 Y80.1 I-0.1 J0
G1 X20
G3 X19.9 Y80 I0 J-0.1
G1 Y20
G3 X20 Y19.9 I0.1 J0
M5 S0
M30
"""
PLOTTED = "IN;SP1;PU1200,1200;PD2000,1200;PU800,800;PD4800,800,4800,3200,800,3200,800,800;PU%s;PD%s;PU;SP0;" % (
    "2800,2000",
    ",".join(
        f"{round(2400 + 400 * math.cos(i * math.tau / 64))},{round(2000 + 400 * math.sin(i * math.tau / 64))}"
        for i in range(1, 65)
    ),
)


def faults(text, beam=LASER, kerf=KERF, part=PLATE, tabs=()):
    read = beams.hpgl if "steps_per_mm" in beam else beams.program
    strokes, found = read(text.encode(), ENTRY, beam)
    return found + beams.line_faults(strokes, {"parts": [part], "tabs": tabs}, kerf, beam.get("light"))


class Beams(unittest.TestCase):
    def wrong(self, because, text, **more):
        found = faults(text, **more)
        self.assertTrue(any(because in fault for fault in found), found)

    def test_a_good_program_has_no_fault(self):
        self.assertEqual(faults(BURNT), [])

    def test_a_beam_lit_in_a_rapid(self):
        self.wrong("a rapid with the beam lit", BURNT.replace("M5 S0\nG0 X69.9", "G0 X69.9"))

    def test_a_part_held_by_tabs(self):
        # Two tabs of 1 mm on the lower and the upper side: the beam is out for 1.2 mm about each.
        out = "M5 S0\nG0 X%s Y%s\nM4 S80\n"
        held = BURNT.replace("G1 X120\nG3 X120.1", "G1 X69.4 F720\n" + out % (70.6, 19.9) + "G1 X120\nG3 X120.1")
        held = held.replace("G1 X20\nG3 X19.9", "G1 X70.6\n" + out % (69.4, 80.1) + "G1 X20\nG3 X19.9")
        # The stroke that ran on past the beginning is begun at the lower tab instead.
        held = held.replace("G0 X20 Y19.9\nM4 S80\nG1 X69.4 F720\nM5 S0\n", "")
        held = held.replace("G3 X20 Y19.9 I0.1 J0", "G3 X20 Y19.9 I0.1 J0\nG1 X69.4")
        tabs = [{"part": "plate", "at": [70, y], "width": 1.0, "height": 10} for y in (20, 80)]
        self.assertEqual(faults(held, tabs=tabs), [])
        self.wrong("mm off", held)
        self.wrong("mm off", BURNT, tabs=tabs)
        self.wrong("mm off", held.replace("X69.4 Y80.1", "X70.2 Y80.1"), tabs=tabs)

    def test_the_kerf_on_the_wrong_side(self):
        self.wrong("mm off", BURNT, kerf=-KERF)

    def test_a_cut_at_the_power_of_a_mark(self):
        self.wrong("is run at 20.0", BURNT.replace("M4 S80", "M4 S20", 1))

    def test_a_power_of_nobodys(self):
        self.wrong("a power of 90.0", BURNT.replace("M4 S80", "M4 S90", 1))

    def test_a_cut_that_does_not_close(self):
        self.wrong("does not close", BURNT.replace("X69.9 Y50 I9.9 J0", "X69.89985 Y50.027 I9.8999 J0.0135"))

    def test_a_lost_and_a_strange_line(self):
        self.wrong("missing or", "\n".join(BURNT.splitlines()[:12] + ["M30"]))
        self.wrong("does not have", BURNT.replace("M30", "G0 X5 Y5\nM4 S80\nG1 X9\nM5 S0\nM30"))

    def test_a_height_on_a_laser(self):
        self.wrong("a height", BURNT.replace("G0 X30 Y30", "G0 X30 Y30 Z5"))

    def test_a_plot(self):
        self.assertEqual(faults(PLOTTED, PLOTTER, 0.0), [])
        self.wrong("does not begin", PLOTTED.replace("SP0;", ""), beam=PLOTTER, kerf=0.0)
        self.wrong("mm off", PLOTTED.replace("PU800,800", "PU800,840"), beam=PLOTTER, kerf=0.0)
        self.wrong("no command", PLOTTED.replace("PU;", "AA5,5,90;PU;"), beam=PLOTTER, kerf=0.0)

    def test_a_pen_by_its_heights(self):
        text = "G17 G21 G90 G94 G40 G49 G80\nG0 Z5\nG0 X30 Y30\nG1 Z0 F3000\nG1 X50\nG0 Z5\nM30\n"
        strokes, found = beams.program(text.encode(), ENTRY, PEN)
        self.assertEqual(found, [])
        self.assertEqual([places for _, places in strokes], [[(30.0, 30.0), (50.0, 30.0)]])
        _, found = beams.program(text.replace("G0 Z5\nM30", "G0 X60\nG0 Z5\nM30").encode(), ENTRY, PEN)
        self.assertTrue(any("a rapid with" in fault for fault in found), found)


if __name__ == "__main__":
    unittest.main()

import math
import unittest

import programs
from samples import BORE, EDGE, HEAD, PROGRAM, SAFE, TAIL


def faults(text):
    return [sentence for _, sentence in programs.read(text.encode("utf-8"), SAFE).faults]


class AGoodProgram(unittest.TestCase):
    def test_is_read_whole(self):
        program = programs.read(PROGRAM.encode(), SAFE)
        self.assertEqual(program.faults, [])
        self.assertEqual((program.unit, program.comments), ("mm", ["PLATE"]))
        self.assertEqual([move.kind for move in program.moves].count("cw"), 4)

    def test_runs_half_a_turn_and_stays_on_its_circle(self):
        arc = next(move for move in programs.read(PROGRAM.encode(), SAFE).moves if move.kind == "ccw")
        self.assertAlmostEqual(arc.turn(), math.pi)
        points = arc.points(0.001)
        self.assertGreater(len(points), 50)
        for x, y, z in points:
            self.assertAlmostEqual(math.dist((x, y), (100, 60)), 7)
            self.assertEqual(z, -10.2)

    def test_in_inches_is_the_same_in_mm(self):
        text = "G17 G20 G90\nG0 Z1\nM3 S9000\nG0 X1 Y0\nG1 Z-0.5 F10\nG2 X0 Y-1 I-1 J0\nG0 Z1\nM30\n"
        program = programs.read(text.encode(), 25.4)
        self.assertEqual(program.faults, [])
        self.assertAlmostEqual(program.moves[-2].turn(), -math.pi / 2)
        self.assertAlmostEqual(program.moves[-2].end[1], -25.4)
        self.assertAlmostEqual(program.moves[-2].feed, 254.0)


    def test_counts_its_bits(self):
        text = "G17 G21 G90\nG0 Z5\nT2 M6\nM3 S9000\nG0 X1 Y0\nG1 Z-1 F10\nG0 Z5\nM5\n{}\nM3 S9000\nG0 X2\nG1 Z-1\nG0 Z5\nM30\n"
        for change in ("T1 M6", "M0"):
            program = programs.read(text.format(change).encode(), SAFE)
            self.assertEqual(program.faults, [])
            self.assertEqual([move.bit for move in program.moves], [0, 0, 0, 0, 1, 1, 1])


class ABadProgram(unittest.TestCase):
    def refused(self, old, new, because):
        self.assertIn(old, PROGRAM)
        found = faults(PROGRAM.replace(old, new, 1))
        self.assertTrue(any(because in sentence for sentence in found), found)

    def test_words(self):
        self.refused("G4 P4", "G4 P4 ;wait", "this is no word")
        self.refused("G4 P4", "G28", "G28 is not a word")
        self.refused("G4 P4", "G41", "G41 is not a word")
        self.refused("G4 P4", "G4", "a dwell takes P")
        self.refused("G17 G21", "G17 G20 G21", "exclude each other")
        self.refused("X107 Y60\n", "X107 X107 Y60\n", "X stands twice")
        self.refused("F600", "F6e2", "E is not a word")
        self.refused("(PLATE)", "(PLATE (OLD))", "a comment")
        self.refused("(PLATE)", "(PLATE", "a comment that does not close")
        self.refused("(PLATE)", "(" + "A" * 300 + ")", "characters")
        self.refused("PLATE", "PLÂTE", "not printable ASCII")

    def test_states(self):
        self.refused("M3 S16000", "M3", "starts without a speed")
        self.refused("M3 S16000\n", "", "while the spindle stands")
        self.refused(" F600", "", "without a feed")
        self.refused("G17 ", "", "before its plane")
        self.refused("G21 ", "", "before its unit")
        self.refused("G90", "G91", "not absolute")
        self.refused("M5\n", "G20\nM5\n", "the unit changes")
        self.refused("M5\n", "M3\nM6 T2\n", "a bit is changed while")
        self.refused("M30", "M30\nG0 X0", "after the end")
        self.refused("M30\n", "", "no M2 or M30")
        self.refused("(PLATE)", "%", "a % without its fellow")

    def test_arcs(self):
        self.refused("I-7 J0", "I-7.003 J0", "radii differ")
        self.refused("I-7 J0", "", "without a centre")
        self.refused("G3 X93 Y60", "G3 X107 Y60", "whole circle")
        self.refused("I-7 J0", "I0 J0", "no radius")
        self.refused("I-7 J0", "R7", "R is not a word")

    def test_an_arc_just_within_the_standard_is_taken(self):
        self.assertEqual(faults(PROGRAM.replace("X93 Y60 I-7", "X93.0015 Y60 I-7").replace("I7 J0", "I6.9985 J0")), [])

    def test_rapids(self):
        self.refused("G0 Z5\nG0 X47", "G0 Z4\nG0 X47", "below 5.000")
        self.refused("G0 Z5\nM3", "M3", "height that is not known")
        self.refused("G0 X47 Y30\nG1 Z-10.2", "G0 X47 Y30 Z2\nG1 Z-10.2", "below 5.000")
        inches = "G17 G20 G90\nG0 Z{}\nM3 S9000\nG0 X1 Y0\nX2\nG1 Z-0.1 F10\nG0 Z0.2\nM30\n"
        at = lambda z: programs.read(inches.format(z).encode(), 12.0).faults
        self.assertTrue(any("below 12.000" in sentence for _, sentence in at("0.4724")))
        self.assertEqual(at("0.4725"), [])

    def test_that_cuts_nothing(self):
        self.assertEqual(faults(HEAD + "G0 X0 Y0\n" + TAIL), ["nothing is cut"])
        self.assertEqual(faults(HEAD + BORE + EDGE + TAIL), [])


if __name__ == "__main__":
    unittest.main()

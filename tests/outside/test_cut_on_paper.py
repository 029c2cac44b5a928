import io
import math
import unittest

import ezdxf
import shapely

import cut_on_paper
import drawings
import programs
from samples import BIT, BORE, EDGE, FLOOR, HEAD, PROGRAM, RADIUS, ROUTER, SAFE, SIZE, TAIL, TOP, drawing

PLATE = cut_on_paper.wood(drawings.chains(ezdxf.read(io.StringIO(drawing().decode().replace("\r", "")))))


def cut(text, origin=(0.0, 0.0)):
    program = programs.read(text.encode(), SAFE)
    assert program.faults == [], program.faults
    return program, cut_on_paper.cuts(program.moves, RADIUS, TOP, FLOOR, origin)


def left(text, tabs=(), blind=()):
    return cut_on_paper.leftover(PLATE, cut(text)[1], tabs, blind, [RADIUS])


def conduct(text, bit=BIT, router=ROUTER, size=SIZE):
    program, found = cut(text)
    return cut_on_paper.conduct_faults(program.moves, found, bit, router, size, 10.0, TOP, (0.0, 0.0))


class Shape(unittest.TestCase):
    def test_the_plate_comes_out_as_drawn(self):
        self.assertLess(cut_on_paper.gouge(PLATE, cut(PROGRAM)[1])[0], 0.001)
        found = left(PROGRAM)
        self.assertLess(found.leftover, 0.001)
        self.assertEqual(found.in_corners, 0)

    def test_an_edge_cut_too_near_is_a_gouge_there(self):
        bite, place = cut_on_paper.gouge(PLATE, cut(PROGRAM.replace("G0 X47 Y30", "G0 X47.02 Y30"))[1])
        self.assertAlmostEqual(bite, 0.02, places=3)
        self.assertLess(place[0], 48)

    def test_a_cut_straight_through_the_part_is_a_deep_gouge(self):
        across = "G0 X60 Y40\nG1 Z-2 F600\nX140 F1800\nG0 Z5\n"
        self.assertGreater(cut_on_paper.gouge(PLATE, cut(HEAD + across + EDGE + TAIL)[1])[0], 12.9)

    def test_the_same_program_off_its_zero_is_a_gouge(self):
        self.assertAlmostEqual(cut_on_paper.gouge(PLATE, cut(PROGRAM, (0.5, 0.0))[1])[0], 0.5, places=2)

    def test_what_is_not_cut_or_not_through_is_left(self):
        self.assertGreater(left(HEAD + EDGE + TAIL).leftover, 1)
        shallow = left(PROGRAM.replace("Z-10.2", "Z-9.9", 1))
        self.assertGreater(shallow.leftover, 1)
        self.assertLess(left(PROGRAM.replace("Z-10.2", "Z-9.9", 1), blind=[(100, 60, 9.9)]).leftover, 0.001)

    def test_a_tab_is_counted_and_not_left_over(self):
        lifted = PROGRAM.replace("G1 X150\n", "G1 X93\nZ-6\nX107\nZ-10.2\nX150\n")
        self.assertGreater(left(lifted).leftover, 0.5)
        found = left(lifted, tabs=[(100, 90, 8.0)])
        self.assertLessEqual(found.leftover, 0.02)
        self.assertGreater(found.at_tabs[0], 8.0)

    def test_a_line_scribed_is_free_and_a_deep_one_is_not(self):
        line = drawings.Chain("mark", False, ((60, 40, 0.0), (140, 40, 0.0)))
        outline = drawings.Chain("outline", True, ((50, 30, 0.0), (150, 30, 0.0), (150, 90, 0.0), (50, 90, 0.0)))
        sheet = cut_on_paper.wood([line, outline])
        scribe = HEAD + "G0 X60 Y40\nG1 Z-0.5 F600\nX140 F1800\n" + TAIL
        self.assertEqual(cut_on_paper.gouge(sheet, cut(scribe)[1])[0], 0)
        self.assertGreater(cut_on_paper.gouge(sheet, cut(scribe.replace("Z-0.5", "Z-3"))[1])[0], 3)


    def test_an_arris_is_free_to_its_depth_and_no_deeper(self):
        outline = drawings.Chain("outline", True, ((50, 30, 0.0), (150, 30, 0.0), (150, 90, 0.0), (50, 90, 0.0)))
        edge = drawings.Chain("mark", False, ((50, 30, 0.0), (150, 30, 0.0)))
        eased = cut_on_paper.wood([outline], arrises=[(edge, 2.5)])
        along = HEAD + "G0 X50 Y30\nG1 Z-2.5 F600\nX150 F1800\n" + TAIL
        self.assertEqual(cut_on_paper.gouge(eased, cut(along)[1])[0], 0)
        self.assertGreater(cut_on_paper.gouge(eased, cut(along.replace("Z-2.5", "Z-2.6"))[1])[0], 2)
        self.assertGreater(cut_on_paper.gouge(cut_on_paper.wood([outline]), cut(along)[1])[0], 2)

    def test_a_relief_is_free_along_its_way_and_no_farther(self):
        into = "G0 X47 Y60\nG1 Z-10.2 F600\nX51 F1800\nG0 Z5\n"
        bite = lambda sheet: cut_on_paper.gouge(sheet, cut(HEAD + into + TAIL)[1])[0]
        outline = drawings.Chain("outline", True, ((50, 30, 0.0), (150, 30, 0.0), (150, 90, 0.0), (50, 90, 0.0)))
        relieved = lambda end: cut_on_paper.wood([outline], [((47.0, 60.0), (end, 60.0), 2 * RADIUS)])
        self.assertGreater(bite(cut_on_paper.wood([outline])), 2.9)
        self.assertEqual(bite(relieved(51.0)), 0)
        self.assertGreater(bite(relieved(50.9)), 2.9)


class Conduct(unittest.TestCase):
    def faulty(self, because, found):
        self.assertTrue(any(because in fault for fault in found), found)

    def test_the_plate_is_cut_as_it_should_be(self):
        self.assertEqual(conduct(PROGRAM), [])

    def test_depths(self):
        self.faulty("below the underside", conduct(PROGRAM.replace("Z-10.2", "Z-10.5")))
        self.faulty("below the underside, where -0.4", conduct(PROGRAM, router={**ROUTER, "leave_web": 0.4}))
        self.faulty("with a bit that cuts 8", conduct(PROGRAM, {**BIT, "cutting_length": 8.0}))
        self.faulty("a drill goes sideways", conduct(PROGRAM, {**BIT, "drill": True}))
        self.faulty("a rapid down", conduct(PROGRAM.replace("G1 Z-10.2 F600", "G0 Z-1\nG1 Z-10.2 F600", 1)))

    def test_places(self):
        self.assertEqual(conduct(PROGRAM, size=(155.0, 120.0)), [])
        self.faulty("beside the stock", conduct(PROGRAM, size=(145.0, 120.0)))
        self.faulty("leaves the bed", conduct(PROGRAM, router={**ROUTER, "bed": [150.0, 500.0]}))
        self.faulty("kept free", conduct(PROGRAM, router={**ROUTER, "keep_outs": [[155.0, 0.0, 160.0, 120.0]]}))
        self.assertEqual(conduct(HEAD + BORE + TAIL, router={**ROUTER, "keep_outs": [[155.0, 0.0, 160.0, 120.0]]}), [])


class Reaches(unittest.TestCase):
    def test_a_tab_in_a_hole_keeps_more_of_its_edge_than_one_on_a_straight_side(self):
        side = shapely.Polygon([(0, 0), (200, 0), (200, 100), (0, 100)]).exterior
        straight = 7.175 + cut_on_paper.TAB_SLACK
        self.assertAlmostEqual(cut_on_paper._reach(side, (100, 0, 8), 3.175), straight, 6)
        hole = shapely.Point(0, 0).buffer(20, quad_segs=512).exterior
        # Two middles 14.35 apart on a circle of 16.825: the edge between their feet is 2 R sin(a / 2) from the tab.
        hollow = 2 * 20 * math.sin(math.asin(7.175 / 16.825) / 2)
        self.assertAlmostEqual(cut_on_paper._reach(hole, (20, 0, 8), 3.175), hollow + cut_on_paper.TAB_SLACK, 2)
        self.assertLess(hollow, 9)

    def test_of_two_tabs_across_a_narrow_point_the_nearer_holds_its_own_edge(self):
        tabs = [(0.0, 0.0, 8.0), (0.0, 2.0, 8.0)]
        at = lambda y: cut_on_paper._tab_at(shapely.Point(3.0, y), tabs, [6.0, 6.0])
        self.assertEqual([at(0.0), at(2.0), at(9.0)], [0, 1, None])


if __name__ == "__main__":
    unittest.main()

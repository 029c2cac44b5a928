import unittest

import svgs
from samples import SIZE, SVG


class Svgs(unittest.TestCase):
    def faulty(self, because, old, new):
        self.assertIn(old, SVG)
        found = svgs.read(SVG.replace(old, new, 1).encode(), SIZE)[1]
        self.assertTrue(any(because in fault for fault in found), found)

    def test_a_good_one_is_clean(self):
        self.assertEqual(svgs.read(SVG.encode(), SIZE)[1], [])

    def test_shapes_stand_upright(self):
        bore, outline = svgs.read(SVG.encode(), SIZE)[0]
        self.assertEqual(bore.circle, (100, 60, 10))
        x, y = zip(*outline.points(0.0001))
        # The arc is half a circle over the plate: 90 + 50.
        self.assertEqual((min(x), max(x), min(y)), (50, 150, 30))
        self.assertAlmostEqual(max(y), 140, places=2)

    def test_sizes(self):
        self.faulty("not in mm", "200mm", "200px")
        self.faulty("not in mm", 'height="120mm" ', "")
        self.faulty("not one millimetre", "0 0 200 120", "0 0 100 60")
        self.faulty("not four plain numbers", "0 0 200 120", "0 0 2e2 120")
        self.assertIn("smaller than the sheet", svgs.read(SVG.encode(), (300.0, 120.0))[1][0])

    def test_what_simple_readers_pass_over(self):
        self.faulty("has transform", "<circle", '<circle transform="scale(2)"')
        self.faulty("has style", "<circle", '<circle style="fill:none"')
        self.faulty("pass over: text", "<circle", "<text>A</text><circle")
        self.faulty("pass over: use", "<circle", '<use href="#a"/><circle')

    def test_groups_and_fill(self):
        self.faulty("no known meaning: holes", 'id="bore"', 'id="holes"')
        self.faulty("filled", 'id="bore" fill="none"', 'id="bore"')
        self.faulty("filled", "<circle", '<circle fill="black"')

    def test_arcs(self):
        self.faulty("too small for its chord", "A 50 50", "A 49.9 49.9")
        self.faulty("two radii", "A 50 50", "A 50 60")
        self.faulty("without its plain numbers", "0 0 0 50 30", "000 50 30")
        self.faulty("ends where it begins", "0 0 0 50 30", "0 0 0 150 30")

    def test_paths(self):
        self.faulty("not absolute and plain", "L 150 90", "l 100 0")
        self.faulty("not closed", " Z", "")
        self.faulty("of no length", "L 150 30", "L 150 90")
        self.faulty("not XML", "</svg>", "")


if __name__ == "__main__":
    unittest.main()

import tempfile
import unittest
from pathlib import Path

from shapely.geometry import Polygon

import drawings
import dxf_tags
from samples import drawing


def read(data, unit="mm"):
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "sheet.dxf"
        path.write_bytes(data)
        return drawings.read(path, unit)


class Drawings(unittest.TestCase):
    def faulty(self, because, edit, unit="mm"):
        _, faults = read(drawing(edit=edit), unit)
        self.assertTrue(any(because in fault for fault in faults), faults)

    def test_a_good_one_is_read_in_mm(self):
        for unit in ("mm", "in"):
            chains, faults = read(drawing(unit), unit)
            self.assertEqual(faults, [])
            plate = Polygon(chains[0].points(0.001))
            self.assertAlmostEqual(plate.area, 6000, places=6)
            self.assertAlmostEqual(chains[1].circle[2], 10)

    def test_arcs_bulge_to_their_side(self):
        half = drawings.Chain("outline", True, ((0, 0, 0.0), (10, 0, 1.0)))
        area = Polygon(half.points(0.0001)).area
        self.assertAlmostEqual(area, 39.27, places=1)
        x, y = zip(*half.points(0.0001))
        self.assertGreater(max(y), 4.99)
        self.assertEqual(min(y), 0)

    def test_the_wrong_unit_is_found(self):
        self.faulty("$INSUNITS is 4, not 1", None, "in")
        self.faulty("$INSUNITS is 0", lambda d: setattr(d, "units", 0))

    def test_lines_that_cannot_be_cut_are_found(self):
        add = lambda *args, **more: lambda d: d.modelspace().add_lwpolyline(*args, **more)
        turned = [(50, 90), (150, 90), (150, 30), (50, 30)]
        on = {"layer": "OUTLINE"}
        self.faulty("1 lines drawn twice", add(turned, format="xy", close=True, dxfattribs=on))
        self.faulty("not closed", add([(60, 40), (70, 40), (70, 50)], format="xy", dxfattribs=on))
        self.faulty("of no length", add([(60, 40), (70, 40), (70, 50), (60, 40)], format="xy", close=True, dxfattribs=on))
        self.faulty("no table defines", add([(60, 40), (70, 40)], format="xy", dxfattribs={"layer": "RECESS"}))
        self.faulty("of no known meaning", add([(60, 40), (70, 40)], format="xy", dxfattribs={"layer": "0"}))

    def test_entities_that_are_passed_over_are_found(self):
        spline = lambda d: d.modelspace().add_spline([(60, 40), (70, 45), (80, 40)], dxfattribs={"layer": "MARK"})
        self.faulty("SPLINE", spline)
        text = lambda d: d.modelspace().add_text("A", dxfattribs={"layer": "OUTLINE", "insert": (60, 40)})
        self.faulty("text on a layer that is cut", text)

    def test_wrong_extents_and_an_empty_sheet_are_found(self):
        self.faulty("extents", lambda d: d.modelspace().reset_extents((50, 30, 0), (100, 60, 0)))
        self.faulty("nothing to cut", lambda d: d.modelspace().delete_all_entities())

    def test_what_is_no_drawing_is_refused(self):
        self.assertIn("cannot read it", read(b"not a drawing")[1][0])


TAGS = (
    "0 SECTION 2 HEADER 9 $ACADVER 1 AC1009 0 ENDSEC 0 SECTION 2 TABLES 0 TABLE 2 LAYER 70 1 0 LAYER 2 OUTLINE 70 0 62 7 6 "
    "CONTINUOUS 0 ENDTAB 0 ENDSEC 0 SECTION 2 ENTITIES 0 POLYLINE 8 OUTLINE 66 1 70 1 0 VERTEX 8 OUTLINE 10 0.0 20 0.0 0 "
    "VERTEX 8 OUTLINE 10 9.0 20 0.0 42 1.0 0 SEQEND 8 OUTLINE 0 ENDSEC 0 EOF"
)


def tags(text):
    return "".join(word + "\r\n" for word in text.split()).encode()


class Tags(unittest.TestCase):
    def faulty(self, because, old, new):
        self.assertIn(old, TAGS)
        found = dxf_tags.faults(tags(TAGS.replace(old, new, 1)))
        self.assertTrue(any(because in fault for fault in found), found)

    def test_a_plain_file_of_r12_is_clean(self):
        self.assertEqual(dxf_tags.faults(tags(TAGS)), [])

    def test_line_ends_and_the_end(self):
        self.assertIn("a line that does not end in CR LF", dxf_tags.faults(tags(TAGS).replace(b"\r", b"")))
        self.assertIn("no EOF at the end", dxf_tags.faults(tags(TAGS)[:-5] + b"EOX\r\n"))
        self.assertTrue(any("odd" in fault for fault in dxf_tags.faults(tags(TAGS + " 0"))))

    def test_layers(self):
        self.faulty("VERTEX on another layer", "VERTEX 8 OUTLINE", "VERTEX 8 0")
        self.faulty("no table defines", "2 OUTLINE 70 0", "2 MARK 70 0")
        self.faulty("small letters", "SEQEND 8 OUTLINE", "SEQEND 8 outline")
        self.faulty("no layer", "SEQEND 8 OUTLINE", "SEQEND")

    def test_numbers(self):
        self.faulty("an exponent", "10 9.0", "10 9E0")
        self.faulty("not a number", "10 9.0", "10 nan")
        self.faulty("a minus before nothing", "20 0.0", "20 -0.0")

    def test_what_r12_does_not_know(self):
        self.faulty("LWPOLYLINE", "0 POLYLINE", "0 LWPOLYLINE")
        self.faulty("a subclass marker", "66 1", "100 AcDbEntity 66 1")

    def test_what_later_files_must_have(self):
        found = dxf_tags.faults(tags(TAGS.replace("AC1009", "AC1024")))
        for because in ("no section OBJECTS", "no table VPORT", "no block *MODEL_SPACE", "no handle: VERTEX", "no owner: POLYLINE"):
            self.assertIn(because, found)

    def test_handles(self):
        self.faulty("handle A twice", "POLYLINE 8 OUTLINE", "POLYLINE 5 A 8 OUTLINE 0 POINT 5 A 8 OUTLINE")
        self.faulty("handle 0", "POLYLINE 8 OUTLINE", "POLYLINE 5 0 8 OUTLINE")
        self.faulty("pointer 330 to FF", "66 1", "330 FF 66 1")
        self.faulty("$HANDSEED", "1 AC1009", "1 AC1009 9 $HANDSEED 5 2 0 POINT 5 1 8 OUTLINE 0 ENDSEC 0 SECTION 2 X 0 POINT 5 2 8 OUTLINE")


if __name__ == "__main__":
    unittest.main()

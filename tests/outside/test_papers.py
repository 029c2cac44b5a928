import cmath
import math
import unittest

import pymupdf

import papers

A4 = (210.0, 297.0)
MM = 72 / 25.4
CAUTION = "Check the bars on the paper."
# A quarter circle of 150 about the lower left corner of the first page's drawing, over two pages 140 apart.
LINE = {"layer": "outline", "chain": [[170, 20, 0.41421356237309503], [20, 170, 0]]}


def paper(stretch=1.0):
    pages = [{"size": [side * stretch for side in A4], "corner": corner} for corner in ([0, 0], [140, 0])]
    return {"stretch": [stretch, stretch], "pages": pages, "lines": [LINE]}


def file(bars=papers.BARS, off=0.0, stretch=1.0, scaling="None", font=False, date="", second=True):
    """Two pages through another writer, its own y downwards."""
    document = pymupdf.open()
    scale = MM * stretch
    for corner in (0.0, 140.0):
        page = document.new_page(width=A4[0] * scale, height=A4[1] * scale)

        def place(x, y):
            return pymupdf.Point(x * scale, (A4[1] - y) * scale)

        shape = page.new_shape()
        for i, length in enumerate(bars):
            shape.draw_line(place(30, 14 + i), place(30 + length, 14 + i))
            shape.draw_line(place(14 + i, 30), place(14 + i, 30 + length))
        shape.finish(width=0.3)
        # 60 curves of 1.5 degrees, the steeper half on the second page, moved from its place by `off`.
        half = range(30) if corner else range(30, 60)
        if second or not corner:
            step = math.pi / 120
            turn = 4j / 3 * math.tan(step / 4)
            for i in half:
                a, b = (cmath.rect(150, step * k) for k in (i, i + 1))
                chain = [a, a + a * turn, b - b * turn, b]
                shape.draw_bezier(*(place(p.real + 20 - corner + off * bool(corner), p.imag + 20) for p in chain))
        shape.finish(width=0.3, closePath=False)
        shape.commit()
        if font:
            page.insert_text((50, 50), "gate")
    document.xref_set_key(document.pdf_catalog(), "ViewerPreferences", f"<</PrintScaling/{scaling}>>")
    document.set_metadata({"subject": CAUTION, "creationDate": date})
    return document.tobytes(no_new_id=True)


class Papers(unittest.TestCase):
    def faulty(self, because, **spoils):
        found = papers.faults(file(**spoils), paper=paper(), cautions=[CAUTION])
        self.assertTrue(any(because in fault for fault in found), found)

    def test_a_good_one_is_clean(self):
        for stretch in (1.0, 1.0288):
            data = file(stretch=stretch)
            self.assertEqual(papers.faults(data, paper=paper(stretch), cautions=[CAUTION]), [])

    def test_bars(self):
        self.faulty("no bar of 100.0 mm across", bars=(100.01, 101.6))
        self.faulty("no bar of 101.6 mm upwards", bars=(100.0,))

    def test_what_a_viewer_may_change(self):
        self.faulty("full size", scaling="AppDefault")
        self.faulty("font", font=True)
        self.faulty("date", date="D:20260101000000")

    def test_cautions(self):
        found = papers.faults(file(), paper=paper(), cautions=["Hand on the stop."])
        self.assertIn("a caution is not in it: Hand on the stop.", found)

    def test_sizes_and_pages(self):
        short = paper()
        short["pages"].pop()
        self.assertIn("2 pages, 1 planned", papers.faults(file(), paper=short))
        self.assertTrue(any("by 297.000 mm, not" in fault for fault in papers.faults(file(), sizes=(210.0, 279.4))))

    def test_a_line_that_is_missing_or_stands_off(self):
        self.faulty("mm off", second=False)
        self.faulty("mm off", off=0.02)
        moved = paper()
        moved["lines"] = [{"layer": "mark", "chain": [[50, 50, 0], [60, 50, 0]]}]
        self.assertIn("a line of the mark", papers.faults(file(), paper=moved)[0])

    def test_no_pdf(self):
        self.assertIn("not a PDF", papers.faults(b"no such thing", sizes=A4)[0])


if __name__ == "__main__":
    unittest.main()

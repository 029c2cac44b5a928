import tempfile
import unittest
from pathlib import Path

import pages
from browser import Browser

CAUTION = "Hand on the stop."
SOUND = f"""<!DOCTYPE html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">
<title>Gate</title><style>body {{ color: #111; background: #fff; margin: 16px }} svg {{ width: 100%; height: auto; display: block }}
/*STYLE*/</style></head><body><main><h1>Gate</h1><p>{CAUTION}</p><h2>Sheets</h2>
<nav aria-label="parts"><a href="#one" style="display:block;padding:6px 0">the sheet</a></nav>
<table id="one"><caption>Parts</caption><thead><tr><th scope="col">part</th><th scope="col">count</th></tr></thead>
<tbody><tr><th scope="row">rib</th><td>2</td></tr></tbody></table>
<svg role="img" aria-label="a rib" viewBox="0 0 40 20"><path d="M1 1 H39 V19 H1 Z" fill="none" stroke="#111"/></svg>
<!--MORE--></main></body></html>"""
MORE = "<!--MORE-->"


def styled(style):
    return SOUND.replace("/*STYLE*/", style)


class Pages(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.browser = cls.enterClassContext(Browser())
        cls.folder = Path(cls.enterClassContext(tempfile.TemporaryDirectory()))

    def found(self, html):
        path = self.folder / "page.html"
        path.write_text(html, "utf-8")
        return pages.faults(self.browser, path, [CAUTION])

    def spoilt(self, html, how, word):
        self.assertNotEqual(html, SOUND)
        found = self.found(html)[how]
        self.assertTrue(any(word in fault for fault in found), found)

    def test_a_sound_page_passes(self):
        self.assertEqual([], [fault for wrong in self.found(SOUND).values() for fault in wrong])

    def test_what_is_wider_than_a_phone(self):
        wide = SOUND.replace(MORE, '<p style="width: 500px">a wide one</p>')
        self.spoilt(wide, "phone", "it is 516 wide in a window of 360")
        self.assertEqual([], self.found(wide)["tablet"])

    def test_words_that_lie_over_others(self):
        self.spoilt(SOUND.replace(MORE, '<p>first words</p><p style="margin-top: -30px">more words</p>'), "tablet", "lies over")

    def test_words_that_are_cut_off(self):
        cut = '<p style="width: 40px; overflow: hidden; white-space: nowrap">words without end</p>'
        self.spoilt(SOUND.replace(MORE, cut), "screen", "it is cut off")

    def test_grey_words(self):
        self.spoilt(styled("p { color: #999 }"), "screen", "its contrast is 2.8")

    def test_a_link_too_low_for_a_thumb(self):
        self.spoilt(SOUND.replace("padding:6px 0", "line-height:18px"), "phone", "too low")

    def test_a_level_of_headings_left_out(self):
        self.spoilt(SOUND.replace(MORE, "<h4>far down</h4>"), "build", "a level is left out")

    def test_two_first_headings(self):
        self.spoilt(SOUND.replace(MORE, "<h1>again</h1>"), "build", "not one first heading")

    def test_a_picture_without_a_name(self):
        self.spoilt(SOUND.replace(' aria-label="a rib"', ""), "screen", "without a name")

    def test_a_table_whose_heads_head_nothing(self):
        self.spoilt(SOUND.replace(' scope="row"', ""), "build", "do not say")

    def test_a_table_that_is_not_read_out_as_one(self):
        self.spoilt(SOUND.replace("<table id", '<table role="presentation" id'), "phone", "0 of 1 are read out as table")

    def test_what_comes_from_elsewhere(self):
        away = SOUND.replace(MORE, '<img alt="away" src="http://127.0.0.1:9/away.png">')
        self.spoilt(away, "build", "it points away")
        self.spoilt(away, "build", "it asks for http://127.0.0.1:9/away.png")

    def test_a_script(self):
        self.spoilt(SOUND.replace(MORE, "<script>1</script>"), "build", "more than words")
        self.spoilt(SOUND.replace("<p>", '<p onclick="1">'), "build", "a script hangs on")

    def test_a_caution_after_the_figures(self):
        late = SOUND.replace(f"<p>{CAUTION}</p>", "").replace(MORE, f"<p>{CAUTION}</p>")
        self.spoilt(late, "build", "not said before the first figure")

    def test_a_caution_that_is_not_printed(self):
        self.spoilt(styled("@media print { p { display: none } }"), "A4", "not printed")

    def test_what_is_wider_than_the_paper(self):
        self.spoilt(styled("@media print { table { width: 720px } }"), "A4", "it is")


if __name__ == "__main__":
    unittest.main()

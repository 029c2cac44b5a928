"""Small files written by hand: one plate of 100 by 60 with a bore, on a sheet of 200 by 120, 10 thick, cut by a bit of 6."""

import io

import ezdxf

SAFE, TOP, FLOOR, RADIUS, SIZE = 5.0, 0.0, -10.0, 3.0, (200.0, 120.0)
BIT = {"name": "straight-6", "diameter": 6.0, "cutting_length": 25.0, "drill": False}
ROUTER = {"machine": "table", "bed": [500.0, 500.0], "safe_height": SAFE, "through": 0.3, "leave_web": 0.0, "keep_outs": []}

HEAD = "(PLATE)\nG17 G21 G90 G94 G40 G49 G80\nG0 Z5\nM3 S16000\nG4 P4\n"
TAIL = "G0 Z5\nM5\nM30\n"
# Inside the bore of 20 about (100, 60): the bit's middle runs on a circle of 7.
BORE = "G0 X107 Y60\nG1 Z-10.2 F600\nG3 X93 Y60 I-7 J0 F1800\nX107 Y60 I7 J0\nG0 Z5\n"
# Around the plate from (50, 30) to (150, 90), the bit 3 outside, its corners rounded.
EDGE = """G0 X47 Y30
G1 Z-10.2 F600
Y90 F1800
G2 X50 Y93 I3 J0
G1 X150
G2 X153 Y90 I0 J-3
G1 Y30
G2 X150 Y27 I-3 J0
G1 X50
G2 X47 Y30 I0 J3
"""
PROGRAM = HEAD + BORE + EDGE + TAIL


def drawing(unit="mm", edit=None, version="R2010"):
    """The bytes of the plate's drawing, through ezdxf; `edit` may change it first."""
    document = ezdxf.new(version)
    scale = 1 / 25.4 if unit == "in" else 1.0
    document.units = 1 if unit == "in" else 4
    for name in ("OUTLINE", "BORE", "STOCK", "MARK"):
        document.layers.add(name)
    space = document.modelspace()
    corners = [(50, 30), (150, 30), (150, 90), (50, 90)]
    plate = [(x * scale, y * scale, 0.0) for x, y in corners]
    space.add_lwpolyline(plate, format="xyb", close=True, dxfattribs={"layer": "OUTLINE"})
    space.add_circle((100 * scale, 60 * scale), 10 * scale, dxfattribs={"layer": "BORE"})
    # ezdxf writes the header's extents from these.
    space.reset_extents((50 * scale, 30 * scale, 0), (150 * scale, 90 * scale, 0))
    if edit:
        edit(document)
    text = io.StringIO()
    document.write(text)
    return text.getvalue().replace("\r\n", "\n").replace("\n", "\r\n").encode()


SVG = """<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="120mm" viewBox="0 0 200 120">
<title>plate</title>
<g id="bore" fill="none" stroke="#00796b"><circle cx="100" cy="60" r="10"/></g>
<g id="outline" fill="none" stroke="#101828"><path d="M 50 90 L 150 90 L 150 30 A 50 50 0 0 0 50 30 Z"/></g>
</svg>
"""

TAGS = """0 SECTION 2 HEADER 9 $ACADVER 1 AC1009 9 $INSUNITS 70 {unit} 9 $EXTMIN 10 50.0 20 30.0 30 0.0
9 $EXTMAX 10 150.0 20 90.0 30 0.0 0 ENDSEC
0 SECTION 2 TABLES
0 TABLE 2 LTYPE 70 1 0 LTYPE 2 CONTINUOUS 70 0 3 SOLID 72 65 73 0 40 0.0 0 ENDTAB
0 TABLE 2 LAYER 70 2 0 LAYER 2 OUTLINE 70 0 62 7 6 CONTINUOUS 0 LAYER 2 BORE 70 0 62 3 6 CONTINUOUS 0 ENDTAB
0 ENDSEC
0 SECTION 2 ENTITIES
0 CIRCLE 8 BORE 10 100.0 20 60.0 30 0.0 40 {radius}
0 POLYLINE 8 OUTLINE 66 1 10 0.0 20 0.0 30 0.0 70 1
0 VERTEX 8 OUTLINE 10 50.0 20 30.0 30 0.0 0 VERTEX 8 OUTLINE 10 150.0 20 30.0 30 0.0
0 VERTEX 8 OUTLINE 10 150.0 20 90.0 30 0.0 0 VERTEX 8 OUTLINE 10 50.0 20 90.0 30 0.0
0 SEQEND 8 OUTLINE 0 ENDSEC 0 EOF"""


def plain(unit=4, radius="10.0"):
    """The bytes of the plate's drawing as bare tags of R12, clean in every line as ezdxf's own files are not."""
    return "".join(word + "\r\n" for word in TAGS.format(unit=unit, radius=radius).split()).encode()

#!/usr/bin/env python3
"""Cuts the small extracts beside it out of the files that NOTICE names.

usage: make-extracts.py FOLDER, which holds the sources under the names below
"""
import pathlib
import re
import shutil
import struct
import sys

source = pathlib.Path(sys.argv[1])
here = pathlib.Path(__file__).parent


def cut_las(name, out, west, east, south, north):
    """The points of a window, every byte of header and records kept but counts and bounds."""
    data = bytearray((source / name).read_bytes())
    start, = struct.unpack_from("<I", data, 96)
    size, count = struct.unpack_from("<HI", data, 105)
    scale = struct.unpack_from("<3d", data, 131)
    offset = struct.unpack_from("<3d", data, 155)
    kept = []
    xyz = []
    for i in range(count):
        at = start + i * size
        p = [s * v + o for s, v, o in zip(scale, struct.unpack_from("<3i", data, at), offset)]
        if west <= p[0] <= east and south <= p[1] <= north:
            kept.append(bytes(data[at : at + size]))
            xyz.append(p)
    head = data[:start]
    struct.pack_into("<I", head, 107, len(kept))
    struct.pack_into("<5I", head, 111, len(kept), 0, 0, 0, 0)
    for axis in range(3):
        values = [p[axis] for p in xyz]
        struct.pack_into("<2d", head, 179 + 16 * axis, max(values), min(values))
    (here / out).write_bytes(bytes(head) + b"".join(kept))
    ground = [p for p, k in zip(xyz, kept) if k[15] & 0x1F == 2]
    first = ground[0]
    mean = sum(p[2] for p in ground) / len(ground)
    print(f"{out}: {len(kept)} points, {len(ground)} ground, first {first}, mean z {mean:.6f}")


def cut_points(name, out, numbers):
    """A LandXML survey's control and the points of some numbers."""
    lines = []
    for line in (source / name).read_text().splitlines():
        point = re.search(r'<CgPoint .*name="(\d+)"', line)
        if re.search(r"<(RawObs|InstrumentSetup)", line):
            continue
        if point and not ('"control"' in line or int(point.group(1)) in numbers):
            continue
        lines.append(line.strip())
        if "</CgPoints>" in line:
            break
    (here / out).write_text("\n".join(lines) + "\n</LandXML>\n")
    print(f"{out}: {sum('<CgPoint ' in l for l in lines)} points")


def cut_surfaces(name, out, faces):
    """The first faces of each surface with their points."""
    text = (source / name).read_text()
    head = text[: text.index("<CgPoints")]
    parts = []
    for surface in re.findall(r"<Surface .*?</Surface>", text, re.S):
        found = re.findall(r"<F>.*?</F>", surface)[:faces]
        used = {n for f in found for n in re.findall(r"\d+", f)}
        points = [p for i, p in re.findall(r'(?=<P id="(\d+)")(<P .*?</P>)', surface) if i in used]
        opening = re.match(r"<Surface [^>]*>", surface).group(0)
        parts += [opening, '<Definition surfType="TIN"><Pnts>', *points, "</Pnts><Faces>", *found]
        parts += ["</Faces></Definition></Surface>"]
    body = "\n".join(["<Surfaces>", *parts, "</Surfaces>", "</LandXML>"])
    (here / out).write_text(head + body + "\n")
    print(f"{out}: {len(parts)} lines")


def cut_lots(name, out, count):
    """The first parcels; what their points are called is left out."""
    text = (source / name).read_text()
    head = text[: text.index("<CgPoints")]
    lots = re.findall(r"<Parcel .*?</Parcel>", text, re.S)[:count]
    lots = [re.sub(r"\n\s*", "\n", lot) for lot in lots]
    (here / out).write_text(head + "\n".join(["<Parcels>", *lots, "</Parcels>", "</LandXML>"]) + "\n")
    print(f"{out}: {len(lots)} lots")


cut_las("4_6_crop.las", "ditch.las", 1639660, 1639690, 1454500 + 100, 1454500 + 130)
shutil.copy(source / "1.2-with-color.copc.laz", here / "hills.laz")
shutil.copy(source / "nm_4_6_ground_pnezd.csv", here / "ditch-shots.csv")
shutil.copy(source / "nm_4_6_ground_1ft_ftUS.tif", here / "ditch-raster.tif")
cut_points("creek_road_survey.xml", "creek.xml", range(1011, 1042))
cut_surfaces("subdivision.xml", "two-surfaces.xml", 40)
cut_lots("subdivision.xml", "lots.xml", 12)

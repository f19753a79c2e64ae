"""Reads the files of a house with libraries that know nothing of the program, and says what it finds, as JSON.

    read_files.py svg FILE...    cut outlines of SVG files (svgpathtools), in mm
    read_files.py dxf FILE...    the same of DXF files (ezdxf), after loading and auditing them
    read_files.py stl FILE...    solids of STL files (trimesh): closed or not, volume in mm³, box
    read_files.py glb FILE...    things that stand in scenes of glTF (trimesh), by name, each with its box in metres
    read_files.py ics FILE...    events of calendars (icalendar), after checks that it does not make itself
    read_files.py csv FILE...    rows of tables (csv of Python), by the names of their columns
    read_files.py union FILE...  areas of the unions of rings (shapely); a file holds a list of lists of rings as JSON

For each drawing: areas of all closed cut lines, how many arcs they have, layers, texts, and what a strict reader
complains of.
"""

import json
import math
import re
import sys
import xml.etree.ElementTree as xml

SVG = "{http://www.w3.org/2000/svg}"


def read_svg(name):
    import svgpathtools

    root = xml.parse(name).getroot()
    assert root.tag == SVG + "svg", root.tag
    width, height = (re.fullmatch(r"([0-9.]+)mm", root.get(k)).group(1) for k in ("width", "height"))
    box = [float(v) for v in root.get("viewBox").split()]
    # One unit is one millimetre.
    assert box == [0.0, 0.0, float(width), float(height)], box
    groups = {g.get("id"): g for g in root.findall(SVG + "g")}
    assert all(g.find(SVG + "title").text for g in groups.values())
    areas, arcs = [], 0
    for path in groups["CUT"].findall(SVG + "path"):
        data = path.get("d")
        assert data.endswith("Z"), data
        found = svgpathtools.parse_path(data)
        arcs += sum(isinstance(step, svgpathtools.Arc) for step in found)
        areas.append(abs(area_of(found)))
        left, right, top, bottom = found.bbox()
        assert left >= 0 and top >= 0 and right <= box[2] and bottom <= box[3], (name, found.bbox())
    texts = [t.text for t in root.iter(SVG + "text")]
    return {"areas": areas, "arcs": arcs, "layers": sorted(groups), "texts": texts}


def area_of(path):
    """Corners by the shoelace formula, and the caps between arcs and their chords; of arcs of circles."""
    import svgpathtools

    total = 0.0
    for step in path:
        a, b = step.start, step.end
        total += (a.real * b.imag - a.imag * b.real) / 2
        if isinstance(step, svgpathtools.Arc):
            assert abs(step.radius.real - step.radius.imag) < 1e-9, step
            sweep = math.radians(step.delta)
            total += step.radius.real**2 * (sweep - math.sin(sweep)) / 2
    return total


def read_dxf(name):
    import ezdxf

    document = ezdxf.readfile(name)
    auditor = document.audit()
    complaints = [str(e.message) for e in auditor.errors + auditor.fixes]
    assert document.dxfversion == "AC1009", document.dxfversion
    space = document.modelspace()
    areas, arcs = [], 0
    for line in space.query('POLYLINE[layer=="CUT"]'):
        assert line.is_closed, name
        total = 0.0
        vertices = list(line.vertices)
        for k, vertex in enumerate(vertices):
            assert vertex.dxf.layer == "CUT", vertex.dxf.layer
            a, b = vertex.dxf.location, vertices[(k + 1) % len(vertices)].dxf.location
            total += (a.x * b.y - a.y * b.x) / 2
            if vertex.dxf.hasattr("bulge") and vertex.dxf.bulge:
                arcs += 1
                centre, start, end, radius = ezdxf.math.bulge_to_arc(a, b, vertex.dxf.bulge)
                sweep = (end - start) % math.tau
                total += math.copysign(radius**2 * (sweep - math.sin(sweep)) / 2, vertex.dxf.bulge)
        areas.append(abs(total))
    open_cuts = [e for e in space.query('*[layer=="CUT"]') if e.dxftype() != "POLYLINE"]
    assert not open_cuts, open_cuts
    texts = [ezdxf.tools.text.plain_text(t.dxf.text) for t in space.query("TEXT")]
    layers = sorted({e.dxf.layer for e in space})
    return {"areas": areas, "arcs": arcs, "layers": layers, "texts": texts, "complaints": complaints}


def read_stl(name):
    import trimesh

    with open(name, "rb") as file:
        header = file.read(80)
    # A binary file that begins so is taken for one of text.
    assert not header.startswith(b"solid"), header
    mesh = trimesh.load_mesh(name)
    low, high = mesh.bounds.tolist()
    whole = bool(mesh.is_watertight and mesh.is_winding_consistent)
    return {"closed": whole, "volume": float(mesh.volume), "low": low, "high": high}


def read_glb(name):
    import numpy
    import trimesh

    scene = trimesh.load_scene(name)
    things = {}
    for node in scene.graph.nodes_geometry:
        place, geometry = scene.graph[node]
        mesh = scene.geometry[geometry]
        corners = trimesh.transform_points(mesh.vertices, place)
        volume = float(mesh.volume) if mesh.is_watertight else None
        covers = [int(c) for c in mesh.visual.material.main_color]
        box = [corners.min(axis=0).tolist(), corners.max(axis=0).tolist()]
        assert numpy.isfinite(corners).all()
        things[node] = {"box": box, "volume": volume, "colour": covers}
    return things


def read_csv(name):
    import csv

    with open(name, newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file, strict=True))


def read_ics(name):
    import icalendar

    with open(name, "rb") as file:
        octets = file.read()
    # What the library lets pass: RFC 5545, 3.1.
    assert octets.endswith(b"\r\n") and octets.count(b"\n") == octets.count(b"\r\n") == octets.count(b"\r"), name
    assert all(len(line) <= 75 for line in octets.split(b"\r\n")), name
    calendar = icalendar.Calendar.from_ical(octets)
    assert not calendar.errors, calendar.errors
    assert all(calendar.get(key) for key in calendar.required), calendar
    events = []
    for event in calendar.walk("VEVENT"):
        assert not event.errors, event.errors
        assert all(event.get(key) is not None for key in event.required), event
        start, end = event.decoded("dtstart"), event.decoded("dtend", None)
        # Times on the wall have no zone, the stamp is UTC.
        assert start.tzinfo is None and event.decoded("dtstamp").utcoffset().total_seconds() == 0
        assert end is None or start < end, event
        alarms = []
        for alarm in event.walk("VALARM"):
            assert all(alarm.get(key) is not None for key in ("action", "trigger", "description")), alarm
            trigger = alarm["trigger"]
            alarms.append([int(trigger.dt.total_seconds() // 60), trigger.params.get("RELATED", "START")])
        events.append({
            "uid": str(event["uid"]),
            "summary": str(event["summary"]),
            "start": start.strftime("%Y-%m-%d %H:%M"),
            "end": end and end.strftime("%Y-%m-%d %H:%M"),
            "place": str(event.get("location", "")),
            "words": str(event.get("description", "")),
            "free": event.get("transp") == "TRANSPARENT",
            "alarms": alarms,
        })
    return events


def read_union(name):
    import shapely

    with open(name) as file:
        return [shapely.union_all([shapely.Polygon(ring) for ring in rings]).area for rings in json.load(file)]


if __name__ == "__main__":
    kinds = {"svg": read_svg, "dxf": read_dxf, "stl": read_stl, "glb": read_glb, "csv": read_csv, "ics": read_ics, "union": read_union}
    read = kinds[sys.argv[1]]
    print(json.dumps([read(name) for name in sys.argv[2:]]))

"""Writes DXF drawings of every kind of entity with ezdxf into the folder named, and says as JSON what each draws: by its
name the lines of model space seen from above, finely sampled, in drawing units."""
import json
import math
import random
import sys

import ezdxf
from ezdxf.math import Vec3
from ezdxf.path import make_path

folder = sys.argv[1]
told = {}


def drawing(name, version="R2010", units=4):
    document = ezdxf.new(version)
    document.units = units
    told[name] = {"lines": [], "units": units}
    return document, document.modelspace(), told[name]["lines"]


def flat(points):
    return [[point.x, point.y] for point in Vec3.list(points)]


def sampled(start, end, count, place):
    return flat(place(start + (end - start) * i / count) for i in range(count + 1))


def of_boor(points, degree, knots, weights=None, count=3000):
    """The spline from knot p to knot n, by de Boor's algorithm in homogeneous coordinates."""
    weights = weights or [1] * len(points)
    spread = [(p[0] * w, p[1] * w, w) for p, w in zip(Vec3.list(points), weights)]

    def place(u):
        k = max(i for i in range(degree, len(points)) if knots[i] <= u and knots[i] < knots[i + 1])
        row = spread[k - degree:k + 1]
        for r in range(1, degree + 1):
            for j in range(degree, r - 1, -1):
                i = j + k - degree
                share = (u - knots[i]) / (knots[i + degree - r + 1] - knots[i])
                row[j] = tuple((1 - share) * a + share * b for a, b in zip(row[j - 1], row[j]))
        x, y, w = row[degree]
        return Vec3(x / w, y / w)

    ends = sorted(set(knots[degree:len(points) + 1]))
    each = math.ceil(count / len(ends))
    return [at for a, b in zip(ends, ends[1:]) for at in sampled(a, b, each, place)]


def save(document, name):
    document.saveas(f"{folder}/{name}.dxf")


dice = random.Random(14)


def some(count, spread=40, step=30):
    return [(step * i + dice.uniform(-9, 9), dice.uniform(-spread, spread)) for i in range(count)]


# Straight lines, polylines with bulges, arcs and circles in systems of many directions.
directions = [(0, 0, 1), (0, 0, -1), (0.001, -0.002, -1), (0, 0, 2)]
for version in ("R12", "R2000", "R2018"):
    name = f"plain-{version}"
    document, space, lines = drawing(name, version)
    space.add_line((0, 0), (31, 17))
    lines.append(flat([(0, 0), (31, 17)]))
    for k, extrusion in enumerate(directions):
        attributes = {"extrusion": extrusion}
        arc = space.add_arc((20 * k, 7), 11.5 + k, 30, 290 - 40 * k, dxfattribs=attributes)
        lines.append(flat(arc.flattening(0.0005)))
        ring = space.add_circle((13 * k, 60), 9.25, dxfattribs=attributes)
        lines.append(flat(ring.flattening(0.0005)))
    bulged = [(0, 0, 0, 0, 1), (40, 0, 0, 0, -0.37), (55, 20, 0, 0, 0), (20, 50, 0, 0, 2.6)]
    for closed in (False, True):
        for extrusion in directions:
            shifted = [(x + 100 * closed, y - 90, s, e, b) for x, y, s, e, b in bulged]
            attributes = {"extrusion": extrusion, "elevation": 0 if version != "R12" else (0, 0, 0)}
            if version == "R12":
                line = space.add_polyline2d(shifted, format="xyseb", close=closed, dxfattribs=attributes)
            else:
                line = space.add_lwpolyline(shifted, close=closed, dxfattribs=attributes)
            lines.append(flat(make_path(line, segments=64).flattening(0.0005)))
    save(document, name)

# Ellipses, whole and in part, either sense of rotation.
document, space, lines = drawing("ellipses")
for k, (start, end) in enumerate([(0, math.tau), (0.4, 2.1), (5, 1), (3, 8.5)]):
    for sense in (1, -1):
        one = space.add_ellipse((40 * k, 50 * sense), (17, 6 * k), 0.3 + 0.2 * k, start, end, dxfattribs={"extrusion": (0, 0, sense)})
        stop = end if end > start else end + math.tau
        major = Vec3(one.dxf.major_axis)
        minor = Vec3(0, 0, sense).cross(major) * one.dxf.ratio
        lines.append(sampled(start, start + ((stop - start) % math.tau or math.tau), 3000, lambda t: Vec3(one.dxf.center) + major * math.cos(t) + minor * math.sin(t)))
save(document, "ellipses")

# Splines: any degree, rational, closed, periodic, of uneven knots.
for degree in (1, 2, 3, 4, 5, 7):
    for rational in (False, True):
        name = f"spline-{degree}{'-rational' if rational else ''}"
        document, space, lines = drawing(name)
        points = some(degree + 6)
        weights = [dice.uniform(0.3, 3) for _ in points] if rational else None
        inner = sorted(dice.uniform(0, 10) for _ in range(5))
        knots = [0] * (degree + 1) + inner + [10] * (degree + 1)
        if rational:
            space.add_rational_spline(points, weights, degree=degree, knots=knots)
        else:
            space.add_open_spline(points, degree=degree, knots=knots)
        lines.append(of_boor(points, degree, knots, weights))
        save(document, name)
for rational in (False, True):
    name = f"spline-periodic{'-rational' if rational else ''}"
    document, space, lines = drawing(name)
    points = [(50 * math.cos(k) * (1 + k % 2), 50 * math.sin(k), 0) for k in range(6)]
    weights = [1 + 0.2 * k for k in range(6)]
    one = space.add_spline()
    if rational:
        one.set_closed_rational(points, weights)
    else:
        one.set_closed(points)
    lines.append(of_boor(one.control_points, 3, list(one.knots), list(one.weights) if rational else None))
    save(document, name)
for ends in (False, True):
    name = f"spline-fit{'-ends' if ends else ''}"
    document, space, lines = drawing(name)
    one = space.add_spline(some(9))
    if ends:
        one.dxf.start_tangent = (0, 1, 0)
        one.dxf.end_tangent = (-1, 0.5, 0)
    made = one.construction_tool()
    lines.append(of_boor(made.control_points, 3, list(made.knots())))
    save(document, name)

# Blocks: scaled unevenly and negatively, turned, nested, in arrays, with base points, in a system of their own.
document, space, lines = drawing("blocks")
inner = document.blocks.new("Inner", base_point=(2, 3))
inner.add_arc((5, 5), 8, 20, 250)
inner.add_lwpolyline([(0, 0, 0, 0, 0.5), (20, 4, 0, 0, 0)])
outer = document.blocks.new("Outer")
outer.add_blockref("INNER", (10, 0), {"xscale": 2, "yscale": -0.7, "rotation": 33})
outer.add_line((0, 0), (9, 9))
for k, extrusion in enumerate([(0, 0, 1), (0, 0, -1)]):
    space.add_blockref("outer", (100 * k, 0), {"xscale": -1.5, "yscale": 0.8, "zscale": 1, "rotation": 140, "extrusion": extrusion})
    space.add_blockref("inner", (0, 200 * k + 80), {"rotation": 20, "column_count": 3, "row_count": 2, "column_spacing": 30, "row_spacing": 25, "xscale": 0.5, "extrusion": extrusion})


def placed(entity):
    """What an entity draws, finely; what a block reference draws by its matrix (ezdxf's own ellipses lose their ends when
    they are mirrored)."""
    if entity.dxftype() != "INSERT":
        yield list(make_path(entity, segments=64).flattening(0.0005))
        return
    for cell in entity.multi_insert() if entity.mcount > 1 else [entity]:
        matrix = cell.matrix44()
        for part in document.blocks.get(cell.dxf.name):
            for points in placed(part):
                yield list(matrix.transform_vertices(points))


for entity in space:
    lines.extend(flat(points) for points in placed(entity))
save(document, "blocks")

# A system that leans: the circle is an ellipse from above. And lines in space.
document, space, lines = drawing("leaning")
tilted = space.add_circle((10, 20, 5), 15, dxfattribs={"extrusion": (1, 2, 3)})
lines.append(flat(tilted.flattening(0.0005)))
space.add_polyline3d([(0, 0, 0), (10, 10, 10), (60, 0, 5)])
lines.append(flat([(0, 0), (10, 10), (60, 0)]))
save(document, "leaning")

# One line in every unit that ezdxf can convert and a drawing may be in.
for units in range(1, 25):
    try:
        mm = ezdxf.units.conversion_factor(units, 4)
    except TypeError:
        continue
    if mm > 1e7:
        continue
    name = f"units-{units}"
    document, space, lines = drawing(name, units=units)
    space.add_line((0, 0), (3, 2))
    lines.append(flat([(0, 0), (3, 2)]))
    told[name]["mm"] = mm
    save(document, name)

print(json.dumps(told))

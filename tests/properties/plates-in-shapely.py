"""Judges plates by shapely, from its own reading of bulges. JSON in: lists of rings, the first one outer; JSON out."""

import json
import math
import sys

from shapely.geometry import LinearRing, Polygon
from shapely.validation import explain_validity

SAG = 2e-3  # mm between an arc and its chords


def points(ring):
    out = []
    for index, (x, y, bulge) in enumerate(ring):
        out.append((x, y))
        if abs(bulge) < 1e-12:
            continue
        x2, y2, _ = ring[(index + 1) % len(ring)]
        half = math.hypot(x2 - x, y2 - y) / 2
        theta = 4 * math.atan(bulge)
        radius = half / abs(math.sin(theta / 2))
        mx, my = (x + x2) / 2, (y + y2) / 2
        off = half / math.tan(theta / 2)
        cx, cy = mx - (y2 - y) / 2 / half * off, my + (x2 - x) / 2 / half * off
        steps = max(2, math.ceil(abs(theta) / (2 * math.acos(max(-1, 1 - SAG / radius)))))
        start = math.atan2(y - cy, x - cx)
        for k in range(1, steps):
            angle = start + theta * k / steps
            out.append((cx + radius * math.cos(angle), cy + radius * math.sin(angle)))
    return out


def near(a, b, reach):
    return a[0] - b[2] < reach and b[0] - a[2] < reach and a[1] - b[3] < reach and b[1] - a[3] < reach


def judged(rings):
    lines = [LinearRing(points(ring)) for ring in rings]
    plate = Polygon(lines[0], lines[1:])
    web = 1e9
    for i, a in enumerate(lines):
        for b in lines[i + 1 :]:
            if near(a.bounds, b.bounds, 20):
                web = min(web, a.distance(b))
    outer = Polygon(lines[0])
    return {
        "valid": plate.is_valid,
        "why": "" if plate.is_valid else explain_validity(plate),
        "inside": all(outer.contains(Polygon(line)) for line in lines[1:]),
        "area": plate.area,
        "length": plate.length,
        "centre": [plate.centroid.x, plate.centroid.y],
        "web": web,
    }


json.dump([judged(rings) for rings in json.load(sys.stdin)], sys.stdout)

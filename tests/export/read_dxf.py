# read_dxf.py FILE...: what ezdxf finds in DXF files, as a list in JSON: of each its audit, its header, and by layer the
# polylines as dense points on their arcs, with their area, the circles and the points. Exit status 1 where ezdxf cannot
# read one.
import json
import math
import sys

import ezdxf
from ezdxf.math import bulge_to_arc

POINTS_ON_ARC = 8


def dense_points(start, end, bulge):
    """From start to just before the end, and the area between arc and chord."""
    if abs(bulge) < 1e-12:
        return [start], 0.0
    centre, _, _, radius = bulge_to_arc(start, end, bulge)
    turned = 4.0 * math.atan(bulge)
    first = math.atan2(start[1] - centre.y, start[0] - centre.x)
    angles = [first + turned * i / POINTS_ON_ARC for i in range(POINTS_ON_ARC)]
    points = [(centre.x + radius * math.cos(a), centre.y + radius * math.sin(a)) for a in angles]
    return points, radius * radius / 2.0 * (turned - math.sin(turned))


def polyline(entity):
    corners = list(entity.get_points('xyb'))
    points = []
    area = 0.0
    for (x, y, bulge), (next_x, next_y, _) in zip(corners, corners[1:] + corners[:1]):
        on_arc, segment = dense_points((x, y), (next_x, next_y), bulge)
        points += on_arc
        area += (x * next_y - next_x * y) / 2.0 + segment
    return {'closed': entity.closed, 'area': area, 'points': points}


def handle_faults(path):
    """What ezdxf mends without a word: handles given twice or beyond the seed, and pointers to nothing."""
    lines = [line.strip() for line in open(path, encoding='cp1252')]
    tags = list(zip(map(int, lines[0::2]), lines[1::2]))
    seed = next(int(after[1], 16) for before, after in zip(tags, tags[1:]) if before == (9, '$HANDSEED'))
    body = tags[tags.index((2, 'TABLES')):]
    handles = [int(value, 16) for code, value in body if code in (5, 105)]
    faults = [f'handle {h:X} twice' for h in set(handles) if handles.count(h) > 1]
    faults += [f'handle {h:X} beyond the seed' for h in handles if h >= seed]
    return faults + [f'pointer to {value}' for code, value in body
                     if code in (330, 350) and int(value, 16) not in handles + [0]]


def found_in(path):
    document = ezdxf.readfile(path)
    audit = document.audit()
    layers = {}
    for entity in document.modelspace():
        layer = layers.setdefault(entity.dxf.layer, {'polylines': [], 'circles': [], 'points': [], 'others': 0})
        kind = entity.dxftype()
        if kind == 'LWPOLYLINE':
            layer['polylines'].append(polyline(entity))
        elif kind == 'CIRCLE':
            layer['circles'].append([entity.dxf.center.x, entity.dxf.center.y, 2.0 * entity.dxf.radius])
        elif kind == 'POINT':
            layer['points'].append([entity.dxf.location.x, entity.dxf.location.y])
        else:
            layer['others'] += 1
    return {'errors': [str(error.message) for error in audit.errors + audit.fixes] + handle_faults(path),
            'version': document.dxfversion,
            'insunits': document.header['$INSUNITS'],
            'measurement': document.header['$MEASUREMENT'],
            'low': list(document.header['$EXTMIN'])[:2],
            'high': list(document.header['$EXTMAX'])[:2],
            'listed': [layer.dxf.name for layer in document.layers],
            'layers': layers}


json.dump([found_in(path) for path in sys.argv[1:]], sys.stdout)

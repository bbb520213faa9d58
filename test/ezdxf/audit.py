"""Reads a DXF file from stdin's path argument with ezdxf and says what it finds, as JSON."""
import json
import sys

import ezdxf

document = ezdxf.readfile(sys.argv[1])
auditor = document.audit()
print(json.dumps({
    "version": document.dxfversion,
    "units": document.units,
    "errors": [error.message for error in auditor.errors],
    "fixes": [fix.message for fix in auditor.fixes],
    "strokes": [
        {"layer": entity.dxf.layer, "kind": entity.dxftype(), "points": [list(point[:2]) for point in entity.get_points()]}
        for entity in document.modelspace()
    ],
}))

"""Legsheet core: everything that computes, nothing that draws on a screen."""

import os

__version__ = "0.1.0"

# Another GIS on the machine may point these at data of another version; rasterio then finds
# no coordinate systems. Ours come with the wheels, so the foreign ones are dropped first thing.
for _name in ("PROJ_DATA", "PROJ_LIB", "GDAL_DATA", "GDAL_DRIVER_PATH"):
    os.environ.pop(_name, None)

"""A scan or photograph of a gasket on the frame's sheet, as closed outlines in mm. Loads no CAD kernel."""

"""What is asked about a pocket in soft jaws, and what is answered."""

from calc.quantity import Quantity

LARGEST = 1000.0

INPUTS = (
    Quantity("part_length", "Part along the jaws", "mm", low=0.5, high=LARGEST, required=True, first=True),
    Quantity("part_width", "Part between the jaws", "mm", low=0.5, high=LARGEST, required=True, first=True),
    Quantity("part_corner_radius", "Radius of the part's corners", "mm", "0: sharp.", low=0, high=LARGEST / 2,
             default="0 mm", first=True),
    Quantity("cutter_diameter", "Cutter diameter", "mm", "For the pocket.", low=0.1, high=200, required=True,
             first=True),
    Quantity("reliefs", "Corner reliefs", help="Plunged into the pocket's corners where the part needs them.",
             choices=("cut", "none"), kind="choice", default="cut", first=True),
    Quantity("fit_clearance", "Clearance along the jaws", "mm", "In all. Nothing takes it up: the part can lie "
             "anywhere in it.", low=0, high=50, default="0.05 mm", first=True),
    Quantity("jaw_gap", "Spacer they are cut on", "mm", "Cut them clamped on it, as hard as they will hold.", above=0,
             high=LARGEST, required=True, first=True),
    Quantity("jaw_thickness", "Thickness of each jaw", "mm", "From the vice to the face that meets the other jaw.",
             above=0, high=LARGEST, first=True),
    Quantity("jaw_length", "Length of the jaws", "mm", above=0, high=2 * LARGEST, first=True),
    Quantity("clearance_across", "Clearance across the jaws", "mm", "In all. Empty: as along them. The vice takes it "
             "up: none is needed.", low=0, high=50, kept=True),
    Quantity("relief_diameter", "Cutter or drill for the reliefs", "mm", "Empty: the same cutter.", low=0.1, high=200),
    Quantity("corner_room", "Room beyond the part's corner", "mm", "For a burr.", low=0, high=50, default="0 mm"),
    Quantity("radial_depth", "Stock left on the wall", "mm", "For the pocket's finishing pass. Empty: 0.2 mm, less "
             "for a small cutter.", above=0, high=50, kept=True),
    Quantity("step_depth", "Depth of the pocket", "mm", above=0, high=LARGEST),
    Quantity("part_height", "Height of the part", "mm", above=0, high=LARGEST),
    Quantity("jaw_height", "Height of the jaws", "mm", above=0, high=LARGEST),
    Quantity("parts_wanted", "Parts side by side", "1", kind="whole", low=1, high=100, default="1"),
    Quantity("wall_wanted", "Jaw wanted round the pocket", "mm", "Judgement. Also between two pockets.", low=0,
             high=LARGEST, default="5 mm"),
)  # fmt: skip
OUTPUTS = (
    Quantity("relief_offset", "From the pocket's corner to the relief's middle", "mm", "inwards, on the bisector"),
    Quantity("relief_from_walls", "The same from each wall", "mm", "to be typed as X and Y"),
    Quantity("relief_diameter", "Relief, diameter", "mm"),
    Quantity("relief_needed", "Reliefs needed"),
    Quantity("smallest_relief", "Smallest relief that clears, diameter", "mm"),
    Quantity("seat_margin", "Room at each end, part in the middle", "mm", "below nothing it stands on the corners"),
    Quantity("pocket_length", "Pocket along the jaws", "mm"),
    Quantity("pocket_width", "Pocket across, cut on the spacer", "mm"),
    Quantity("gap_held", "Between the jaws when they hold", "mm", "1 mm is wanted (judgement)"),
    Quantity("wall_eaten", "Eaten of each wall, from the corner", "mm"),
    Quantity("end_wall_left", "End wall that locates, in each jaw", "mm", "2 mm is wanted (judgement)"),
    Quantity("long_wall_left", "Long wall that holds, in each jaw", "mm", "half of the part's flat is wanted "
             "(judgement)"),
    Quantity("thinnest_jaw", "Thinnest jaw left round the pocket", "mm", "reliefs included"),
    Quantity("parts_side_by_side", "Parts that fit along the jaws", "1"),
    Quantity("stands_out", "Part above the jaws by", "mm"),
    Quantity("corner_engagement", "Cutter in metal, in the pocket's corners", "deg", "before any relief"),
    Quantity("removal_rate_rise", "Times more metal in the corners", "1", "before any relief"),
)  # fmt: skip

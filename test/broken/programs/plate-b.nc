(Plate, setup B: turned over about x = 75, face B up, Z zero on the bed)
(Cutter 1: straight, 6 mm)
G21 G17 G90 G94 G54
G0 Z15
S18000 M3
G4 P3
(rebate along the top edge, 5 deep in two passes)
G0 X124 Y77
G0 Z11
G1 Z7.5 F600
G1 X36 F1800
G1 Z5 F600
G1 X124 F1800
G0 Z15
M5
M30

(Plate, setup A: face A up, Z zero on the bed, sheet 140 x 100 x 10)
(Cutter 1: straight, 6 mm)
G21 G17 G90 G94 G54
G0 Z15
S18000 M3
G4 P3
(rebate along the left edge, 4 deep)
G0 X33 Y14
G0 Z11
G1 Z6 F600
G1 Y83 F1800
G0 Z15
(housing, 6 deep in two passes)
G0 X53 Y43
G0 Z11
G1 X87 Z7 F600
G1 X53 F1800
G1 Y44
G1 X87
G1 Y43
G1 X53
G1 X87 Z4 F600
G1 X53 F1800 (a very long remark a very long remark a very long remark a very long remark a very long remark a very long remark a very long remark a very long remark a very long remark a very long remark a very long remark a very long remark a very long remark a very long remark )
G1 Y44
G1 X87
G1 Y43
G1 X53
G0 Z15
(opening, through)
G0 X100 Y60
G0 Z11
G1 Z7 F600
G3 X90 Y60 I-5 J0 F1800
G3 X100 Y60 I5 J0
G1 Z3.5 F600
G3 X90 Y60 I-5 J0 F1800
G3 X100 Y60 I5 J0
G1 Z-0.2 F600
G3 X90 Y60 I-5 J0 F1800
G3 X100 Y60 I5 J0
G0 Z15
(bore, through)
G0 X42 Y65
G0 Z11
G1 Z5 F300
G0 Z11
G0 Z5.5
G1 Z-0.2 F300
G0 Z15
(outline, through, two tabs)
G0 X50 Y17
G0 Z11
G1 Z7 F600
G1 X100 F1800
G3 X113 Y30 I0 J13
G1 Y70
G3 X100 Y83 I-13 J0
G1 X27 F1800
G1 Y17
G1 X50
G1 Z3.5 F600
G1 X100 F1800
G3 X113 Y30 I0 J13
G1 Y70
G3 X100 Y83 I-13 J0
G1 X27 F1800
G1 Y17
G1 X50
G1 Z-0.2 F600
G1 X64 F1800
G1 Z1.5
G1 X76
G1 Z-0.2 F600
G1 X100 F1800
G3 X113 Y30 I0 J13
G1 Y70
G3 X100 Y83 I-13 J0
G1 X76
G1 Z1.5
G1 X64
G1 Z-0.2 F600
G1 X27 F1800
G1 Y17
G1 X50
G0 Z15
M5
M30

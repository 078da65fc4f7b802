//! Tolerances and deviations of ISO 286, as reprinted; sizes in millimetres, tolerances in tenths of a micrometre,
//! deviations in micrometres.
//!
//! A range reaches from above the size of the row before to its own size, included. `tests/published/iso286_grades.csv`
//! and its neighbours name the source of every single figure; the comments here, that of every row. Deviations of
//! holes follow from those of shafts by the rules of ISO 286-1, save for J, which stands here.

/// Where the standard has no figure.
pub(super) const NO: i16 = i16::MIN;

/// Upper ends of the ranges of the tolerance grades.
pub(super) static RANGES: [i64; 21] =
    [3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500, 630, 800, 1000, 1250, 1600, 2000, 2500, 3150];

/// Upper ends of the ranges of the deviations, some of which divide a range of the grades.
pub(super) static STEPS: [i64; 41] = [
    3, 6, 10, 14, 18, 24, 30, 40, 50, 65, 80, 100, 120, 140, 160, 180, 200, 225, 250, 280, 315, 355, 400,
    450, 500, 560, 630, 710, 800, 900, 1000, 1120, 1250, 1400, 1600, 1800, 2000, 2240, 2500, 2800, 3150,
];

/// Tolerances of the grades IT01, IT0, IT1 to IT18 in each of [`RANGES`], in tenths of a micrometre; 0 for none.
pub(super) static GRADES: [[i32; 20]; 21] = [
    // From 3 mm: Narayana, Kannaiah and Reddy, Machine Drawing, Table 15.1 p.213 (IT01 to IT0); Narayana, Kannaiah
    // and Reddy, Machine Drawing, Table 15.1 p.213, GB/T 1800.3-1998 Table 1 (IT1 to IT16); GB/T 1800.3-1998 Table
    // 1 (IT17 to IT18).
    [3, 5, 8, 12, 20, 30, 40, 60, 100, 140, 250, 400, 600, 1000, 1400, 2500, 4000, 6000, 10000, 14000],
    [4, 6, 10, 15, 25, 40, 50, 80, 120, 180, 300, 480, 750, 1200, 1800, 3000, 4800, 7500, 12000, 18000],
    [4, 6, 10, 15, 25, 40, 60, 90, 150, 220, 360, 580, 900, 1500, 2200, 3600, 5800, 9000, 15000, 22000],
    [5, 8, 12, 20, 30, 50, 80, 110, 180, 270, 430, 700, 1100, 1800, 2700, 4300, 7000, 11000, 18000, 27000],
    [6, 10, 15, 25, 40, 60, 90, 130, 210, 330, 520, 840, 1300, 2100, 3300, 5200, 8400, 13000, 21000, 33000],
    [
        6, 10, 15, 25, 40, 70, 110, 160, 250, 390, 620, 1000, 1600, 2500, 3900, 6200, 10000, 16000, 25000,
        39000,
    ],
    [
        8, 12, 20, 30, 50, 80, 130, 190, 300, 460, 740, 1200, 1900, 3000, 4600, 7400, 12000, 19000, 30000,
        46000,
    ],
    [
        10, 15, 25, 40, 60, 100, 150, 220, 350, 540, 870, 1400, 2200, 3500, 5400, 8700, 14000, 22000, 35000,
        54000,
    ],
    [
        12, 20, 35, 50, 80, 120, 180, 250, 400, 630, 1000, 1600, 2500, 4000, 6300, 10000, 16000, 25000,
        40000, 63000,
    ],
    [
        20, 30, 45, 70, 100, 140, 200, 290, 460, 720, 1150, 1850, 2900, 4600, 7200, 11500, 18500, 29000,
        46000, 72000,
    ],
    [
        25, 40, 60, 80, 120, 160, 230, 320, 520, 810, 1300, 2100, 3200, 5200, 8100, 13000, 21000, 32000,
        52000, 81000,
    ],
    [
        30, 50, 70, 90, 130, 180, 250, 360, 570, 890, 1400, 2300, 3600, 5700, 8900, 14000, 23000, 36000,
        57000, 89000,
    ],
    [
        40, 60, 80, 100, 150, 200, 270, 400, 630, 970, 1550, 2500, 4000, 6300, 9700, 15500, 25000, 40000,
        63000, 97000,
    ],
    // From 630 mm: GB/T 1800.3-1998 Table 1 (IT1 to IT18).
    [
        0, 0, 90, 110, 160, 220, 320, 440, 700, 1100, 1750, 2800, 4400, 7000, 11000, 17500, 28000, 44000,
        70000, 110000,
    ],
    [
        0, 0, 100, 130, 180, 250, 360, 500, 800, 1250, 2000, 3200, 5000, 8000, 12500, 20000, 32000, 50000,
        80000, 125000,
    ],
    [
        0, 0, 110, 150, 210, 280, 400, 560, 900, 1400, 2300, 3600, 5600, 9000, 14000, 23000, 36000, 56000,
        90000, 140000,
    ],
    // From 1250 mm: memory, GB/T 1800.3-1998 excerpt shows 13 (IT1); memory (IT2, IT3, IT4, IT12, IT13, IT14, IT15,
    // IT16, IT17, IT18); ISO 286 standard tolerance table IT5-IT11 (IT5 to IT11).
    [
        0, 0, 130, 180, 240, 330, 470, 660, 1050, 1650, 2600, 4200, 6600, 10500, 16500, 26000, 42000, 66000,
        105000, 165000,
    ],
    // From 1600 mm: memory (IT1, IT2, IT3, IT4, IT12, IT13, IT14, IT15, IT16, IT17, IT18); ISO 286 standard
    // tolerance table IT5-IT11 (IT5 to IT11).
    [
        0, 0, 150, 210, 290, 390, 550, 780, 1250, 1950, 3100, 5000, 7800, 12500, 19500, 31000, 50000, 78000,
        125000, 195000,
    ],
    [
        0, 0, 180, 250, 350, 460, 650, 920, 1500, 2300, 3700, 6000, 9200, 15000, 23000, 37000, 60000, 92000,
        150000, 230000,
    ],
    [
        0, 0, 220, 300, 410, 550, 780, 1100, 1750, 2800, 4400, 7000, 11000, 17500, 28000, 44000, 70000,
        110000, 175000, 280000,
    ],
    [
        0, 0, 260, 360, 500, 680, 960, 1350, 2100, 3300, 5400, 8600, 13500, 21000, 33000, 54000, 86000,
        135000, 210000, 330000,
    ],
];

/// Fundamental deviations of shafts in each of [`STEPS`], by position from a to zc: the upper deviation of a to h, the
/// lower one of k to zc. js has none, j stands in [`J_SHAFTS`]; k is that of grades 4 to 7.
pub(super) static SHAFTS: [[i16; 41]; 28] = [
    // a.
    // DME Mold Bases & Plates catalogue, Table 7 shafts p.283 (0 to 65); DME Mold Bases & Plates 2020
    // catalogue, Table 6 holes (A hole, mirrored) (65 to 80); DME Mold Bases & Plates 2020 catalogue, Table 6
    // holes (A11 upper +600 = 380+IT11) (80 to 100); memory (100 to 120); Narayana, Kannaiah and Reddy, Machine
    // Drawing, Table 15.3 p.219 (A hole, mirrored) (120 to 180); Narayana, Kannaiah and Reddy, Machine Drawing,
    // Table 15.2 p.215 (180 to 500).
    [
        -270, -270, -280, -290, -290, -300, -300, -310, -320, -340, -360, -380, -410, -460, -520, -580, -660,
        -740, -820, -920, -1050, -1200, -1350, -1500, -1650, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO,
        NO, NO, NO, NO,
    ],
    // b.
    // DME Mold Bases & Plates catalogue, Table 7 shafts p.283 (0 to 180); Narayana, Kannaiah and Reddy, Machine
    // Drawing, Table 15.2 p.215, DME Mold Bases & Plates catalogue, Table 7 shafts p.283 (180 to 500).
    [
        -140, -140, -150, -150, -150, -160, -160, -170, -180, -190, -200, -220, -240, -260, -280, -310, -340,
        -380, -420, -480, -540, -600, -680, -760, -840, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO,
        NO, NO, NO,
    ],
    // c.
    // Sumitomo catalogue, JIS B 0401 (1999) regularly used shaft fits (0 to 30); Table of limit deviations of
    // common shafts, GB/JIS (30 to 180); Narayana, Kannaiah and Reddy, Machine Drawing, Table 15.2 p.215 (180
    // to 500).
    [
        -60, -70, -80, -95, -95, -110, -110, -120, -130, -140, -150, -170, -180, -200, -210, -230, -240,
        -260, -280, -300, -330, -360, -400, -440, -480, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO,
        NO, NO, NO,
    ],
    // cd.
    // memory (0 to 10).
    [
        -34, -46, -56, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO,
        NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO,
    ],
    // d.
    // Sumitomo catalogue, JIS B 0401 (1999) regularly used shaft fits (0 to 80); JIS B 0401 (1998) shaft table
    // in tooling catalogue (80 to 180); Narayana, Kannaiah and Reddy, Machine Drawing, Table 15.2 p.215 (180 to
    // 500); DME Mold Bases & Plates 2020 catalogue, Technical Reference Table 5 (500 to 3150).
    [
        -20, -30, -40, -50, -50, -65, -65, -80, -80, -100, -100, -120, -120, -145, -145, -145, -170, -170,
        -170, -190, -190, -210, -210, -230, -230, -260, -260, -290, -290, -320, -320, -350, -350, -390, -390,
        -430, -430, -480, -480, -520, -520,
    ],
    // e.
    // Sumitomo catalogue, JIS B 0401 (1999) regularly used shaft fits (0 to 80); JIS B 0401 (1998) shaft table
    // in tooling catalogue (80 to 180); Narayana, Kannaiah and Reddy, Machine Drawing, Table 15.2 p.215 (180 to
    // 500); DME Mold Bases & Plates 2020 catalogue, Technical Reference Table 5 (500 to 3150).
    [
        -14, -20, -25, -32, -32, -40, -40, -50, -50, -60, -60, -72, -72, -85, -85, -85, -100, -100, -100,
        -110, -110, -125, -125, -135, -135, -145, -145, -160, -160, -170, -170, -195, -195, -220, -220, -240,
        -240, -260, -260, -290, -290,
    ],
    // ef.
    // memory (0 to 10).
    [
        -10, -14, -18, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO,
        NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO,
    ],
    // f.
    // Sumitomo catalogue, JIS B 0401 (1999) regularly used shaft fits (0 to 80); JIS B 0401 (1998) shaft table
    // in tooling catalogue (80 to 180); Narayana, Kannaiah and Reddy, Machine Drawing, Table 15.2 p.215 (180 to
    // 500); DME Mold Bases & Plates 2020 catalogue, Technical Reference Table 5 (500 to 3150).
    [
        -6, -10, -13, -16, -16, -20, -20, -25, -25, -30, -30, -36, -36, -43, -43, -43, -50, -50, -50, -56,
        -56, -62, -62, -68, -68, -76, -76, -80, -80, -86, -86, -98, -98, -110, -110, -120, -120, -130, -130,
        -145, -145,
    ],
    // fg.
    // memory (0 to 10).
    [
        -4, -6, -8, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO,
        NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO,
    ],
    // g.
    // SKF catalogue, shaft tolerances and resultant fits f5 f6 g5 g6 h5 (0 to 180); Narayana, Kannaiah and
    // Reddy, Machine Drawing, Table 15.2 p.215 (180 to 500); DME Mold Bases & Plates 2020 catalogue, Technical
    // Reference Table 5 (500 to 3150).
    [
        -2, -4, -5, -6, -6, -7, -7, -9, -9, -10, -10, -12, -12, -14, -14, -14, -15, -15, -15, -17, -17, -18,
        -18, -20, -20, -22, -22, -24, -24, -26, -26, -28, -28, -30, -30, -32, -32, -34, -34, -38, -38,
    ],
    // h.
    // SKF catalogue, shaft tolerances h6 h8 h9 j5 j6 (0 to 80); BIG DAISHOWA catalogue p.139 shaft tolerances
    // h1-h9 (80 to 500); DME Mold Bases & Plates 2020 catalogue, Technical Reference Table 5 (500 to 3150).
    [
        0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0,
        0, 0, 0, 0, 0, 0, 0,
    ],
    // js.
    [NO; 41],
    // j.
    [NO; 41],
    // k.
    // Sumitomo catalogue, JIS B 0401 (1999) regularly used shaft fits (0 to 3); Fujian Longxi bearing
    // catalogue, fits of radial spherical plain bearings (3 to 180); Narayana, Kannaiah and Reddy, Machine
    // Drawing, Table 15.2 p.215 (180 to 500); DME Mold Bases & Plates 2020 catalogue, Technical Reference Table
    // 5 (500 to 3150).
    [
        0, 1, 1, 1, 1, 2, 2, 2, 2, 2, 2, 3, 3, 3, 3, 3, 4, 4, 4, 4, 4, 4, 4, 5, 5, 0, 0, 0, 0, 0, 0, 0, 0, 0,
        0, 0, 0, 0, 0, 0, 0,
    ],
    // m.
    // Narayana, Kannaiah and Reddy, Machine Drawing, Table 15.2 p.216 (0 to 180); Fujian Longxi bearing
    // catalogue, fits of radial spherical plain bearings (180 to 500); DME Mold Bases & Plates 2020 catalogue,
    // Technical Reference Table 5 (500 to 3150).
    [
        2, 4, 6, 7, 7, 8, 8, 9, 9, 11, 11, 13, 13, 15, 15, 15, 17, 17, 17, 20, 20, 21, 21, 23, 23, 26, 26,
        30, 30, 34, 34, 40, 40, 48, 48, 58, 58, 68, 68, 76, 76,
    ],
    // n.
    // Narayana, Kannaiah and Reddy, Machine Drawing, Table 15.2 p.216 (0 to 180); Narayana, Kannaiah and Reddy,
    // Machine Drawing, Table 15.3 p.219 (N hole, mirrored) (180 to 500); DME Mold Bases & Plates 2020
    // catalogue, Technical Reference Table 5 (500 to 3150).
    [
        4, 8, 10, 12, 12, 15, 15, 17, 17, 20, 20, 23, 23, 27, 27, 27, 31, 31, 31, 34, 34, 37, 37, 40, 40, 44,
        44, 50, 50, 56, 56, 66, 66, 78, 78, 92, 92, 110, 110, 135, 135,
    ],
    // p.
    // Narayana, Kannaiah and Reddy, Machine Drawing, Table 15.2 p.216 (0 to 180); Narayana, Kannaiah and Reddy,
    // Machine Drawing, Table 15.3 p.221 (hole, mirrored) (180 to 500); DME Mold Bases & Plates 2020 catalogue,
    // Technical Reference Table 5 (500 to 3150).
    [
        6, 12, 15, 18, 18, 22, 22, 26, 26, 32, 32, 37, 37, 43, 43, 43, 50, 50, 50, 56, 56, 62, 62, 68, 68,
        78, 78, 88, 88, 100, 100, 120, 120, 140, 140, 170, 170, 195, 195, 240, 240,
    ],
    // r.
    // Narayana, Kannaiah and Reddy, Machine Drawing, Table 15.2 p.216 (0 to 180); Narayana, Kannaiah and Reddy,
    // Machine Drawing, Table 15.3 p.221 (hole, mirrored) (180 to 500); DME Mold Bases & Plates 2020 catalogue,
    // Technical Reference Table 5 (500 to 3150).
    [
        10, 15, 19, 23, 23, 28, 28, 34, 34, 41, 43, 51, 54, 63, 65, 68, 77, 80, 84, 94, 98, 108, 114, 126,
        132, 150, 155, 175, 185, 210, 220, 250, 260, 300, 330, 370, 400, 440, 460, 550, 580,
    ],
    // s.
    // Narayana, Kannaiah and Reddy, Machine Drawing, Table 15.2 p.216 (0 to 180); Narayana, Kannaiah and Reddy,
    // Machine Drawing, Table 15.3 p.221 (hole, mirrored) (180 to 500); DME Mold Bases & Plates 2020 catalogue,
    // Technical Reference Table 5 (500 to 3150).
    [
        14, 19, 23, 28, 28, 35, 35, 43, 43, 53, 59, 71, 79, 92, 100, 108, 122, 130, 140, 158, 170, 190, 208,
        232, 252, 280, 310, 340, 380, 430, 470, 520, 580, 640, 720, 820, 920, 1000, 1100, 1250, 1400,
    ],
    // t.
    // Narayana, Kannaiah and Reddy, Machine Drawing, Table 15.2 p.216 (24 to 180); Narayana, Kannaiah and
    // Reddy, Machine Drawing, Table 15.3 p.221 (hole, mirrored) (180 to 500); DME Mold Bases & Plates 2020
    // catalogue, Technical Reference Table 5 (500 to 3150).
    [
        NO, NO, NO, NO, NO, NO, 41, 48, 54, 66, 75, 91, 104, 122, 134, 146, 166, 180, 196, 218, 240, 268,
        294, 330, 360, 400, 450, 500, 560, 620, 680, 780, 840, 960, 1050, 1200, 1350, 1500, 1650, 1900, 2100,
    ],
    // u.
    // Narayana, Kannaiah and Reddy, Machine Drawing, Table 15.2 p.216 (0 to 180); Narayana, Kannaiah and Reddy,
    // Machine Drawing, Table 15.3 p.221 (hole, mirrored) (180 to 200, 225 to 500); EN ISO 286-1 fundamental
    // deviations N to ZC (U hole, mirrored), Narayana p.221 prints 256, taken as misprint (200 to 225); DME
    // Mold Bases & Plates 2020 catalogue, Technical Reference Table 5 (500 to 3150).
    [
        18, 23, 28, 33, 33, 41, 48, 60, 70, 87, 102, 124, 144, 170, 190, 210, 236, 258, 284, 315, 350, 390,
        435, 490, 540, 600, 660, 740, 840, 940, 1050, 1150, 1300, 1450, 1600, 1850, 2000, 2300, 2500, 2900,
        3200,
    ],
    // v.
    // Narayana, Kannaiah and Reddy, Machine Drawing, Table 15.2 p.216 (14 to 180); Narayana, Kannaiah and
    // Reddy, Machine Drawing, Table 15.3 p.221 (hole, mirrored) (180 to 500).
    [
        NO, NO, NO, NO, 39, 47, 55, 68, 81, 102, 120, 146, 172, 202, 228, 252, 284, 310, 340, 385, 425, 475,
        530, 595, 660, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO,
    ],
    // x.
    // Narayana, Kannaiah and Reddy, Machine Drawing, Table 15.2 p.216 (0 to 180); Narayana, Kannaiah and Reddy,
    // Machine Drawing, Table 15.3 p.221 (hole, mirrored) (180 to 355, 400 to 500); memory, formula IT7+1.6D
    // gives 660, Narayana p.221 prints 650, taken as misprint (355 to 400).
    [
        20, 28, 34, 40, 45, 54, 64, 80, 97, 122, 146, 178, 210, 248, 280, 310, 350, 385, 425, 475, 525, 590,
        660, 740, 820, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO,
    ],
    // y.
    // Narayana, Kannaiah and Reddy, Machine Drawing, Table 15.2 p.216 (18 to 180); Narayana, Kannaiah and
    // Reddy, Machine Drawing, Table 15.3 p.221 (hole, mirrored) (180 to 500).
    [
        NO, NO, NO, NO, NO, 63, 75, 94, 114, 144, 174, 214, 254, 300, 340, 380, 425, 470, 520, 580, 650, 730,
        820, 920, 1000, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO,
    ],
    // z.
    // Narayana, Kannaiah and Reddy, Machine Drawing, Table 15.2 p.216 (0 to 180); Narayana, Kannaiah and Reddy,
    // Machine Drawing, Table 15.3 p.221 (hole, mirrored) (180 to 500).
    [
        26, 35, 42, 50, 60, 73, 88, 112, 136, 172, 210, 258, 310, 365, 415, 465, 520, 575, 640, 710, 790,
        900, 1000, 1100, 1250, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO,
    ],
    // za.
    // Narayana, Kannaiah and Reddy, Machine Drawing, Table 15.2 p.216 (0 to 180); Narayana, Kannaiah and Reddy,
    // Machine Drawing, Table 15.3 p.221 (hole, mirrored) (180 to 500).
    [
        32, 42, 52, 64, 77, 98, 118, 148, 180, 226, 274, 335, 400, 470, 535, 600, 670, 740, 820, 920, 1000,
        1150, 1300, 1450, 1600, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO,
    ],
    // zb.
    // Narayana, Kannaiah and Reddy, Machine Drawing, Table 15.2 p.216 (0 to 180); Narayana, Kannaiah and Reddy,
    // Machine Drawing, Table 15.3 p.221 (hole, mirrored) (180 to 500).
    [
        40, 50, 67, 90, 108, 136, 160, 200, 242, 300, 360, 445, 525, 620, 700, 780, 880, 960, 1050, 1200,
        1300, 1500, 1650, 1850, 2100, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO,
    ],
    // zc.
    // Narayana, Kannaiah and Reddy, Machine Drawing, Table 15.2 p.216 (0 to 180); Narayana, Kannaiah and Reddy,
    // Machine Drawing, Table 15.3 p.221 (hole, mirrored) (180 to 500).
    [
        60, 80, 97, 130, 150, 188, 218, 274, 325, 405, 480, 585, 690, 800, 900, 1000, 1150, 1250, 1350, 1550,
        1700, 1900, 2100, 2400, 2600, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO,
    ],
];

/// Lower deviations of the shafts j5 and j6, j7, and j8 in the first 13 of [`RANGES`].
pub(super) static J_SHAFTS: [[i16; 13]; 3] = [
    // SKF catalogue, shaft tolerances h6 h8 h9 j5 j6 (0 to 80); GB shaft fit table for bearings (80 to 120);
    // memory (120 to 180); Narayana, Kannaiah and Reddy, Machine Drawing, Table 15.2 p.215 (180 to 500).
    [-2, -2, -2, -3, -4, -5, -7, -9, -11, -13, -16, -18, -20],
    // memory (0 to 180); Narayana, Kannaiah and Reddy, Machine Drawing, Table 15.2 p.215 (180 to 500).
    [-4, -4, -5, -6, -8, -10, -12, -15, -18, -21, -26, -28, -32],
    // memory (0 to 3).
    [-6, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO],
];

/// Upper deviations of the holes J6, J7 and J8 in the first 13 of [`RANGES`].
pub(super) static J_HOLES: [[i16; 13]; 3] = [
    // DME Mold Bases & Plates catalogue, Table 6 holes cont. p.281 (0 to 250); Narayana, Kannaiah and Reddy,
    // Machine Drawing, Table 15.3 p.219 (250 to 500).
    [2, 5, 5, 6, 8, 10, 13, 16, 18, 22, 25, 29, 33],
    // DME Mold Bases & Plates catalogue, Table 6 holes cont. p.281 (0 to 250); Narayana, Kannaiah and Reddy,
    // Machine Drawing, Table 15.3 p.219 (250 to 500).
    [4, 6, 8, 10, 12, 14, 18, 22, 26, 30, 36, 39, 43],
    // DME Mold Bases & Plates catalogue, Table 6 holes cont. p.281 (0 to 250); Narayana, Kannaiah and Reddy,
    // Machine Drawing, Table 15.3 p.219 (250 to 500).
    [6, 10, 12, 15, 20, 24, 28, 34, 41, 47, 55, 60, 66],
];

#[cfg(test)]
mod tests {
    use super::*;

    fn name(place: usize) -> String {
        format!("row {place}")
    }

    #[test]
    fn ranges_rise_and_steps_divide_them() {
        assert!(RANGES.windows(2).all(|pair| pair[0] < pair[1]));
        assert!(STEPS.windows(2).all(|pair| pair[0] < pair[1]));
        assert!(RANGES.iter().all(|end| STEPS.contains(end)));
    }

    #[test]
    fn tolerances_rise_with_size_and_grade() {
        for (k, row) in GRADES.iter().enumerate() {
            let from = row.iter().take_while(|&&tolerance| tolerance == 0).count();
            assert_eq!(from, if RANGES[k] > 500 { 2 } else { 0 });
            assert!(row[from..].windows(2).all(|pair| 0 < pair[0] && pair[0] < pair[1]), "{}", RANGES[k]);
        }
        for pair in GRADES.windows(2) {
            assert!(pair[0].iter().zip(pair[1]).all(|(a, b)| b == 0 || *a <= b), "{pair:?}");
        }
    }

    // ISO 286-1: from IT6 on, every fifth grade is ten times as wide. The standard rounds the finest ranges apart.
    #[test]
    fn five_grades_make_ten_times_the_tolerance() {
        for (k, row) in GRADES.iter().enumerate() {
            for grade in 7..15 {
                let ratio = f64::from(row[grade + 5]) / f64::from(row[grade]);
                let allowed = if RANGES[k] <= 6 { 1.0 } else { 0.4 };
                assert!((ratio - 10.0).abs() <= allowed, "{} mm, place {grade}: {ratio}", RANGES[k]);
            }
        }
    }

    // The formulas of ISO 286-1, from memory: i = 0.45 D^(1/3) + 0.001 D to 500 mm, I = 0.004 D + 2.1 above, with D in
    // mm the geometric mean of the range; IT7 is 16 of them. The tables round by up to 15 % in the first range.
    #[test]
    #[allow(clippy::disallowed_methods, reason = "a check by other means than the code under test")]
    fn tolerances_are_near_the_formulas() {
        for (k, row) in GRADES.iter().enumerate() {
            let over = if k == 0 { 1 } else { RANGES[k - 1] };
            let middle = ((over * RANGES[k]) as f64).sqrt();
            let unit = if k > 12 { 0.004 * middle + 2.1 } else { 0.45 * middle.cbrt() + 0.001 * middle };
            for (place, units) in
                [(6, 7.0), (7, 10.0), (8, 16.0), (9, 25.0), (10, 40.0), (11, 64.0), (12, 100.0)]
            {
                let ratio = f64::from(row[place]) / (10.0 * units * unit);
                let allowed = if k == 0 { 0.16 } else { 0.1 };
                assert!((ratio - 1.0).abs() < allowed, "{} mm, place {place}: {ratio}", RANGES[k]);
            }
        }
    }

    /// Rises, falls or stays as sizes rise, where there are figures, and has no gap.
    fn moves_one_way(row: &[i16]) -> bool {
        let figures: Vec<i16> = row.iter().copied().filter(|figure| *figure != NO).collect();
        let first = row.iter().position(|figure| *figure != NO).unwrap_or(0);
        let sign = if figures.iter().sum::<i16>() < 0 { -1 } else { 1 };
        row[first..].iter().take_while(|figure| **figure != NO).count() == figures.len()
            && figures.windows(2).all(|pair| sign * pair[0] <= sign * pair[1])
    }

    #[test]
    fn deviations_move_away_from_the_nominal_size_as_it_rises() {
        for (place, row) in SHAFTS.iter().enumerate() {
            // k is zero again above 500 mm.
            let row = if place == 13 { &row[..25] } else { &row[..] };
            assert!(moves_one_way(row), "{}", name(place));
        }
        for (place, row) in J_SHAFTS.iter().chain(&J_HOLES).enumerate() {
            assert!(moves_one_way(row), "j {}", name(place));
        }
    }

    // From a to zc every position lies above the one before, at each size.
    #[test]
    fn positions_follow_one_another() {
        for step in 0..STEPS.len() {
            let figures: Vec<i16> =
                SHAFTS.iter().map(|row| row[step]).filter(|figure| *figure != NO).collect();
            assert!(figures.windows(2).all(|pair| pair[0] <= pair[1]), "{} mm: {figures:?}", STEPS[step]);
        }
    }

    // Within a range of the grades, the positions from d to h and from k to p have one figure.
    #[test]
    fn middle_positions_have_one_figure_in_a_range() {
        for place in (4..=10).chain(13..=16) {
            for step in 1..STEPS.len() {
                if !RANGES.contains(&STEPS[step - 1]) {
                    assert_eq!(
                        SHAFTS[place][step - 1],
                        SHAFTS[place][step],
                        "{}, {} mm",
                        name(place),
                        STEPS[step]
                    );
                }
            }
        }
    }
}

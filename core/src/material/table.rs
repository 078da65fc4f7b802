//! The rows of the table of materials, one a line, in the units of their sources.
//!
//! A blank is `-`: the source has no figure, and none is made up. The aliases, numbers of the UNS and names of EN
//! among them, are from memory; where an EN grade differs a little from the American one, it is the nearest.

use super::record::Provenance::{CommonPractice, Memory, PartlyPublished, Published};
use super::record::{IsoGroup, Material, Provenance, Source, Sources};
use crate::quantity::{Density, ExpansionCoefficient, Modulus, Ratio, Stress, SurfaceSpeed, UnitPower};
use std::borrow::Cow;

const fn source(provenance: Provenance, text: &'static str) -> Source {
    Source { provenance, text: Cow::Borrowed(text) }
}

// Density, modulus, Poisson's ratio and expansion; yield and hardness.
const RECALLED: Source = source(Memory, "typical handbook value");
const CALLISTER: Source = source(
    PartlyPublished,
    "Callister, Materials Science and Engineering, appendix B: density or elastic modulus or both; the rest \
     typical handbook values from memory",
);
const MECHANICS: Source = source(
    PartlyPublished,
    "Multimedia Engineering Mechanics, appendix: modulus, Poisson's ratio and expansion; density from memory",
);
const DATABASE: Source = source(
    PartlyPublished,
    "a database of material properties: density; the rest typical handbook values from memory",
);
const DATA_PAGE: Source = source(Published, "a data page for the grade, its publisher not recorded");
const HARDENED_PAGE: Source =
    source(Published, "a data page for the hardened grade, its publisher not recorded");
const DATA_PAGES: Source = source(
    PartlyPublished,
    "two data pages for the grade, their publishers and which figures they print not recorded",
);
const MECHANICS_YIELD: Source = source(
    PartlyPublished,
    "Multimedia Engineering Mechanics, appendix: yield; hardness a typical handbook value from memory",
);
const YIELD_70_KSI: Source =
    source(Memory, "typical handbook value; a data page for the grade prints 70 ksi (483 MPa)");

// Specific cutting force.
const KC_GUIDE: Source = source(
    Published,
    "Iscar, user guide, kc1.1 and mc by group of VDI 3323; which group a material is in is our choice",
);

// Unit power.
const KP_PRINTED: Source = source(
    Published,
    "Machinery's Handbook, 31st edition, page 1147, table 1b: power constant Kp, sharp tool",
);
const KP_RECALLED: Source = source(Memory, "Machinery's Handbook, power constant Kp, table 1a");
const GUESS: Source = source(CommonPractice, "common practice, low confidence");

// Surface speeds.
const SHOP_TABLE: Source = source(
    Published,
    "table of surface speeds by grade of a training workshop: middle of the range, in ft/min, turned into m/min",
);
const STARTING: Source = source(Memory, "typical handbook starting speed");

// Exponents of tool life.
const TEXTBOOK: Source = source(
    Memory,
    "typical textbook exponent of the tool, not of the material: high-speed steel 0.10 to 0.15, carbide 0.20 \
     to 0.30",
);

// Notes.
const MANUAL_SPEEDS: &str = "speeds for manual machines in training; production figures for carbide are 1.5 to 2 \
                             times as high";
const FORCES_DIFFER: &str = "specific cutting force and unit power disagree by a factor of 1.4 to 1.7: check power \
                             with the larger";
const KP_OF_11XX: &str = "grade not in the table of unit power: figure of the 11xx free-machining group at the same \
                          hardness";
const GROUP_VARIES: &str =
    "some tool makers put martensitic and precipitation-hardening stainless in group M";
const DUPLEX: &str = "kc1.1 is that of the group of austenitic and duplex stainless";
const HARDENED: &str = "no exponent mc is printed for hardened steel; high-speed steel does not cut it";
const GREY_CLASS_30: &str = "grey iron does not yield; tensile strength about 214 MPa";
const GREY_CLASS_40: &str = "grey iron does not yield; tensile strength about 293 MPa";
const COPPER: &str =
    "specific cutting force and unit power disagree by a factor of about 2.4: unit power is the safer";
const TI_ALPHA_BETA: &str = "the 2017 edition of the same guide prints kc1.1 2110 and mc 0.22 for alpha-beta titanium; \
                             handbooks 1300 to 1500";
const TI_PURE: &str = "the 2017 edition of the same guide prints kc1.1 1700 and mc 0.23 for pure titanium";
const NO_KC11: &str = "no published kc1.1: use unit power";
const PLASTIC: &str = "unit power and speeds give the order of magnitude only";

// Cautions: common knowledge of the trade, from memory. The safety data sheet of the supplier comes first.
const BERYLLIUM: &str = "dust and fume of beryllium cause incurable lung disease and cancer: cut wet, never grind, \
                         polish or blow off dry, extract at the tool, and follow the safety data sheet and the local \
                         limits for beryllium";
const LEAD: &str = "holds lead: keep its dust and fume out of lungs and mouth, wash before eating, keep the chips \
                    apart for recycling, and follow the safety data sheet";
const MAGNESIUM: &str = "chips and dust burn fiercely, and water makes it worse: sharp tools, heavy feed, no \
                         dwelling, chips cleared often and kept dry, a class D extinguisher at hand, the maker asked \
                         before using any coolant with water";
const TITANIUM: &str = "fine chips and dust catch fire, from a dull tool above all: sharp tools, no dwelling, plenty \
                        of coolant, chips cleared often, a class D extinguisher at hand, never water on burning \
                        chips";
const NICKEL: &str = "dust and fume hold nickel, in most grades chromium or cobalt too, which may cause cancer and allergy: cut wet, extract at \
                      the tool when grinding, keep coolant off the skin, and follow the safety data sheet";
const STAINLESS: &str = "dust and fume from grinding or welding hold chromium, mostly nickel too, which may cause \
                         cancer and allergy: extract them, and follow the safety data sheet";
const TOOL_STEEL: &str = "dust from grinding holds chromium, vanadium and other metals that harm the lungs: \
                                grind wet or extract the dust";
const ALUMINIUM: &str = "fine dust can burn or explode, worst when mixed with rust from steel: collect it apart, and \
                         never put water on burning chips";
const CAST_IRON: &str = "dry cutting makes fine dust of iron and graphite, and the skin of a casting may hold \
                         sand: extract the dust";
const ACETAL: &str = "gives off formaldehyde when overheated, and burns with a flame that is hard to see: sharp \
                      tools, chips cleared, no dwelling";
const PTFE_FUME: &str = "gives off poisonous fume when overheated, as chips or dust do on a hot tool or a cigarette: \
                         sharp tools, no smoking, hands washed";
const PVC_FUME: &str = "gives off hydrogen chloride when overheated: sharp tools, good air, no dwelling";

macro_rules! optional {
    (-) => {
        None
    };
    ($value:tt) => {
        Some($value)
    };
    ($make:path, -) => {
        None
    };
    ($make:path, $value:tt) => {
        Some($make($value))
    };
}

macro_rules! materials {
    ($($designation:literal, [$($alias:literal)*], $condition:literal, $name:literal, $iso:ident, $vdi:tt,
       $density:literal, $modulus:literal, $poisson:literal, $expansion:literal, $yield:tt, $hardness:literal,
       $kc11:tt, $mc:tt, $unit_power:literal, $hss:tt, $carbide:literal, $n_hss:tt, $n_carbide:literal,
       $physical:ident, $strength:ident, $cutting:tt, $power:ident, $speeds:ident, $life:ident,
       [$($note:ident)*] $(, [$($caution:ident)*])?;)*) => {
        pub(super) static MATERIALS: &[Material] = &[$(Material {
            designation: Cow::Borrowed($designation),
            aliases: Cow::Borrowed(const { &[$(Cow::Borrowed($alias)),*] }),
            condition: Cow::Borrowed($condition),
            name: Cow::Borrowed($name),
            iso_group: Some(IsoGroup::$iso),
            vdi_group: optional!($vdi),
            density: Some(Density::grams_per_cubic_centimetre($density)),
            modulus: Some(Modulus::gigapascals($modulus)),
            poisson: Some(Ratio::new($poisson)),
            expansion: Some(ExpansionCoefficient::per_kelvin($expansion)),
            yield_strength: optional!(Stress::megapascals, $yield),
            hardness: Cow::Borrowed($hardness),
            kc11: optional!(Stress::megapascals, $kc11),
            mc: optional!(Ratio::new, $mc),
            unit_power: Some(UnitPower::horsepower_per_cubic_inch_per_minute($unit_power)),
            speed_hss: optional!(SurfaceSpeed::metres_per_minute, $hss),
            speed_carbide: Some(SurfaceSpeed::metres_per_minute($carbide)),
            taylor_hss: optional!(Ratio::new, $n_hss),
            taylor_carbide: Some(Ratio::new($n_carbide)),
            sources: Sources {
                physical: $physical,
                strength: $strength,
                cutting_force: optional!($cutting),
                unit_power: $power,
                speeds: $speeds,
                tool_life: $life,
            },
            notes: Cow::Borrowed(const { &[$(Cow::Borrowed($note)),*] }),
            cautions: Cow::Borrowed(const { &[$($(Cow::Borrowed($caution)),*)?] }),
        }),*];
    };
}

// designation, aliases, condition, name, ISO 513 group, VDI 3323 group, density g/cm³, modulus GPa, Poisson's
// ratio, expansion 1/K, yield MPa, hardness, kc1.1 MPa, mc, unit power hp/(in³/min), speed of high-speed steel
// and of carbide m/min, Taylor's n of each, sources of: physical figures, yield and hardness, kc1.1 and mc,
// unit power, speeds, n; notes; cautions, where there are any.
materials! {
    "SAE 1018",           ["UNS G10180"],                            "cold drawn",                  "Low-carbon steel",                     P, 1,  7.87, 205.0, 0.29, 11.7e-6,  370.0,  "126 HB",        1350.0, 0.21, 0.69, 27.0,  120.0, 0.125, 0.25, RECALLED,   RECALLED,        KC_GUIDE, KP_PRINTED,  SHOP_TABLE, TEXTBOOK, [MANUAL_SPEEDS];
    "SAE 1020",           ["UNS G10200" "C22" "1.0402"],             "hot rolled",                  "Low-carbon steel",                     P, 1,  7.85, 207.0, 0.3,  11.7e-6,  210.0,  "111 HB",        1350.0, 0.21, 0.66, 27.0,  120.0, 0.125, 0.25, CALLISTER,  RECALLED,        KC_GUIDE, KP_PRINTED,  SHOP_TABLE, TEXTBOOK, [MANUAL_SPEEDS];
    "ASTM A36",           ["UNS K02600"],                            "hot rolled",                  "Structural steel",                     P, 1,  7.85, 200.0, 0.29, 11.7e-6,  250.0,  "125 HB",        1350.0, 0.21, 0.69, 27.0,  110.0, 0.125, 0.25, MECHANICS,  MECHANICS_YIELD, KC_GUIDE, KP_PRINTED,  STARTING,   TEXTBOOK, [];
    "SAE 1045",           ["UNS G10450" "C45" "1.0503"],             "hot rolled or normalized",    "Medium-carbon steel",                  P, 2,  7.85, 205.0, 0.29, 11.5e-6,  310.0,  "170 HB",        1500.0, 0.22, 0.78, 24.0,  100.0, 0.125, 0.25, RECALLED,   RECALLED,        KC_GUIDE, KP_PRINTED,  SHOP_TABLE, TEXTBOOK, [MANUAL_SPEEDS];
    "SAE 1095",           ["UNS G10950"],                            "annealed",                    "High-carbon steel",                    P, 4,  7.85, 205.0, 0.29, 11.2e-6,  380.0,  "192 HB",        1700.0, 0.24, 0.82, 18.0,  80.0,  0.125, 0.25, RECALLED,   RECALLED,        KC_GUIDE, KP_PRINTED,  STARTING,   TEXTBOOK, [];
    "SAE 12L14",          ["UNS G12144" "11SMnPb30" "1.0718"],       "cold drawn",                  "Free-machining steel",                 P, 1,  7.87, 200.0, 0.29, 11.5e-6,  415.0,  "163 HB",        1350.0, 0.21, 0.48, 45.0,  180.0, 0.125, 0.25, RECALLED,   RECALLED,        KC_GUIDE, KP_PRINTED,  STARTING,   TEXTBOOK, [KP_OF_11XX], [LEAD];
    "SAE 1215",           ["UNS G12150" "11SMn30" "1.0715"],         "cold drawn",                  "Free-machining steel",                 P, 1,  7.87, 200.0, 0.29, 11.5e-6,  415.0,  "167 HB",        1350.0, 0.21, 0.48, 40.0,  170.0, 0.125, 0.25, RECALLED,   RECALLED,        KC_GUIDE, KP_PRINTED,  STARTING,   TEXTBOOK, [KP_OF_11XX];
    "SAE 1144",           ["UNS G11440" "44SMn28" "1.0762"],         "cold drawn, stress relieved", "Resulfurized medium-carbon steel",     P, 3,  7.85, 205.0, 0.29, 11.5e-6,  690.0,  "240 HB",        1675.0, 0.24, 0.57, 25.0,  105.0, 0.125, 0.25, RECALLED,   RECALLED,        KC_GUIDE, KP_PRINTED,  STARTING,   TEXTBOOK, [];
    "SAE 4130",           ["UNS G41300" "25CrMo4" "1.7218"],         "normalized",                  "Low-alloy steel",                      P, 6,  7.85, 205.0, 0.29, 11.2e-6,  435.0,  "197 HB",        1775.0, 0.24, 0.62, 24.0,  100.0, 0.125, 0.25, RECALLED,   RECALLED,        KC_GUIDE, KP_PRINTED,  STARTING,   TEXTBOOK, [];
    "SAE 4140",           ["UNS G41400" "42CrMo4" "1.7225"],         "annealed",                    "Low-alloy steel",                      P, 6,  7.85, 207.0, 0.3,  12.3e-6,  415.0,  "197 HB",        1775.0, 0.24, 0.69, 21.0,  85.0,  0.125, 0.25, CALLISTER,  RECALLED,        KC_GUIDE, KP_PRINTED,  SHOP_TABLE, TEXTBOOK, [MANUAL_SPEEDS];
    "SAE 4140",           ["UNS G41400" "42CrMo4" "1.7225"],         "prehard 28-32 HRC",           "Low-alloy steel",                      P, 8,  7.85, 207.0, 0.3,  12.3e-6,  655.0,  "285 HB",        1725.0, 0.24, 0.87, 15.0,  75.0,  0.125, 0.25, CALLISTER,  RECALLED,        KC_GUIDE, KP_PRINTED,  STARTING,   TEXTBOOK, [];
    "SAE 4340",           ["UNS G43400"],                            "annealed",                    "Low-alloy steel",                      P, 6,  7.85, 207.0, 0.3,  12.3e-6,  470.0,  "217 HB",        1775.0, 0.24, 0.72, 20.0,  85.0,  0.125, 0.25, CALLISTER,  RECALLED,        KC_GUIDE, KP_PRINTED,  STARTING,   TEXTBOOK, [];
    "SAE 8620",           ["UNS G86200" "20NiCrMo2-2" "1.6523"],     "normalized",                  "Carburizing steel",                    P, 6,  7.85, 205.0, 0.29, 11.1e-6,  385.0,  "183 HB",        1775.0, 0.24, 0.62, 25.0,  105.0, 0.125, 0.25, RECALLED,   RECALLED,        KC_GUIDE, KP_PRINTED,  STARTING,   TEXTBOOK, [];
    "SAE 52100",          ["UNS G52986" "100Cr6" "1.3505"],          "spheroidize annealed",        "Bearing steel",                        P, 6,  7.83, 205.0, 0.29, 11.9e-6,  420.0,  "192 HB",        1775.0, 0.24, 0.83, 18.0,  80.0,  0.125, 0.25, RECALLED,   RECALLED,        KC_GUIDE, KP_PRINTED,  STARTING,   TEXTBOOK, [];
    "AISI O1",            ["UNS T31501" "100MnCrW4" "1.2510"],       "annealed",                    "Oil-hardening tool steel",             P, 6,  7.83, 210.0, 0.3,  11.2e-6,  370.0,  "195 HB",        1775.0, 0.24, 0.75, 15.0,  61.0,  0.125, 0.25, RECALLED,   RECALLED,        KC_GUIDE, KP_RECALLED, SHOP_TABLE, TEXTBOOK, [MANUAL_SPEEDS];
    "AISI W1",            ["UNS T72301"],                            "annealed",                    "Water-hardening tool steel",           P, 4,  7.83, 190.0, 0.29, 10.4e-6,  380.0,  "187 HB",        1700.0, 0.24, 0.75, 24.0,  75.0,  0.125, 0.25, HARDENED_PAGE, RECALLED,        KC_GUIDE, KP_RECALLED, STARTING,   TEXTBOOK, [];
    "AISI A2",            ["UNS T30102" "X100CrMoV5" "1.2363"],      "annealed",                    "Air-hardening tool steel",             P, 10, 7.86, 190.0, 0.29, 10.7e-6,  350.0,  "210 HB",        2450.0, 0.23, 0.88, 15.0,  61.0,  0.125, 0.25, DATA_PAGES, RECALLED,        KC_GUIDE, KP_RECALLED, SHOP_TABLE, TEXTBOOK, [MANUAL_SPEEDS];
    "AISI D2",            ["UNS T30402" "X153CrMoV12" "1.2379"],     "annealed",                    "High-C high-Cr tool steel",            P, 10, 7.7,  210.0, 0.29, 10.4e-6,  430.0,  "220 HB",        2450.0, 0.23, 0.88, 11.0,  50.0,  0.125, 0.25, RECALLED,   RECALLED,        KC_GUIDE, KP_RECALLED, STARTING,   TEXTBOOK, [], [TOOL_STEEL];
    "AISI H13",           ["UNS T20813" "X40CrMoV5-1" "1.2344"],     "annealed",                    "Hot-work tool steel",                  P, 10, 7.8,  210.0, 0.3,  10.9e-6,  380.0,  "200 HB",        2450.0, 0.23, 0.75, 16.0,  70.0,  0.125, 0.25, RECALLED,   RECALLED,        KC_GUIDE, KP_RECALLED, STARTING,   TEXTBOOK, [];
    "AISI S7",            ["UNS T41907"],                            "annealed",                    "Shock-resisting tool steel",           P, 6,  7.83, 207.0, 0.29, 12.1e-6,  380.0,  "195 HB",        1775.0, 0.24, 0.75, 17.0,  75.0,  0.125, 0.25, RECALLED,   RECALLED,        KC_GUIDE, KP_RECALLED, STARTING,   TEXTBOOK, [];
    "AISI M2",            ["UNS T11302" "HS6-5-2" "1.3343"],         "annealed",                    "High-speed steel",                     P, 10, 8.16, 210.0, 0.3,  10.1e-6,  430.0,  "230 HB",        2450.0, 0.23, 0.98, 13.0,  55.0,  0.125, 0.25, RECALLED,   RECALLED,        KC_GUIDE, KP_RECALLED, STARTING,   TEXTBOOK, [], [TOOL_STEEL];
    "AISI D2",            ["UNS T30402" "X153CrMoV12" "1.2379"],     "hardened 60 HRC",             "Hardened tool steel",                  H, 39, 7.7,  210.0, 0.29, 10.4e-6,  1900.0, "60 HRC",        4700.0, -,    2.0,  -,     45.0,  -,     0.3,  RECALLED,   RECALLED,        KC_GUIDE, GUESS,       STARTING,   TEXTBOOK, [HARDENED], [TOOL_STEEL];
    "AISI 303",           ["UNS S30300" "X8CrNiS18-9" "1.4305"],     "annealed",                    "Free-machining austenitic stainless",  M, 14, 8.0,  193.0, 0.28, 17.2e-6,  240.0,  "160 HB",        2150.0, 0.2,  0.6,  27.0,  110.0, 0.125, 0.25, RECALLED,   RECALLED,        KC_GUIDE, KP_RECALLED, STARTING,   TEXTBOOK, [FORCES_DIFFER], [STAINLESS];
    "AISI 304",           ["UNS S30400" "X5CrNi18-10" "1.4301"],     "annealed",                    "Austenitic stainless",                 M, 14, 8.0,  193.0, 0.3,  17.2e-6,  215.0,  "180 HB",        2150.0, 0.2,  0.72, 15.0,  61.0,  0.125, 0.25, CALLISTER,  RECALLED,        KC_GUIDE, KP_RECALLED, SHOP_TABLE, TEXTBOOK, [MANUAL_SPEEDS FORCES_DIFFER], [STAINLESS];
    "AISI 316",           ["UNS S31600" "X5CrNiMo17-12-2" "1.4401"], "annealed",                    "Austenitic stainless",                 M, 14, 8.0,  193.0, 0.3,  16.0e-6,  205.0,  "180 HB",        2150.0, 0.2,  0.72, 15.0,  61.0,  0.125, 0.25, CALLISTER,  RECALLED,        KC_GUIDE, KP_RECALLED, SHOP_TABLE, TEXTBOOK, [MANUAL_SPEEDS FORCES_DIFFER], [STAINLESS];
    "AISI 410",           ["UNS S41000" "X12Cr13" "1.4006"],         "annealed",                    "Martensitic stainless",                P, 12, 7.8,  200.0, 0.28, 9.9e-6,   275.0,  "155 HB",        1875.0, 0.21, 0.6,  24.0,  100.0, 0.125, 0.25, RECALLED,   RECALLED,        KC_GUIDE, KP_RECALLED, STARTING,   TEXTBOOK, [GROUP_VARIES FORCES_DIFFER], [STAINLESS];
    "AISI 416",           ["UNS S41600" "X12CrS13" "1.4005"],        "annealed",                    "Free-machining martensitic stainless", P, 12, 7.8,  200.0, 0.28, 9.9e-6,   275.0,  "155 HB",        1875.0, 0.21, 0.6,  33.0,  130.0, 0.125, 0.25, RECALLED,   RECALLED,        KC_GUIDE, KP_RECALLED, STARTING,   TEXTBOOK, [GROUP_VARIES FORCES_DIFFER], [STAINLESS];
    "AISI 440C",          ["UNS S44004" "X105CrMo17" "1.4125"],      "annealed",                    "Martensitic stainless",                P, 13, 7.8,  200.0, 0.28, 10.2e-6,  450.0,  "230 HB",        1875.0, 0.21, 0.88, 13.0,  60.0,  0.125, 0.25, CALLISTER,  RECALLED,        KC_GUIDE, KP_RECALLED, STARTING,   TEXTBOOK, [GROUP_VARIES FORCES_DIFFER], [STAINLESS];
    "17-4 PH",            ["UNS S17400" "X5CrNiCuNb16-4" "1.4542"],  "H1025",                       "Precipitation-hardening stainless",    P, 13, 7.8,  197.0, 0.27, 11.2e-6,  1000.0, "331 HB",        1875.0, 0.21, 1.1,  12.0,  60.0,  0.125, 0.25, RECALLED,   RECALLED,        KC_GUIDE, GUESS,       STARTING,   TEXTBOOK, [GROUP_VARIES], [STAINLESS];
    "2205",               ["UNS S32205" "X2CrNiMoN22-5-3" "1.4462"], "annealed",                    "Duplex stainless",                     M, 14, 7.8,  200.0, 0.3,  13.0e-6,  450.0,  "250 HB",        2150.0, 0.2,  0.9,  12.0,  60.0,  0.125, 0.25, RECALLED,   RECALLED,        KC_GUIDE, GUESS,       STARTING,   TEXTBOOK, [DUPLEX FORCES_DIFFER], [STAINLESS];
    "ASTM A48 class 30",  [],                                        "as cast",                     "Grey cast iron",                       K, 15, 7.15, 100.0, 0.26, 11.0e-6,  -,      "190 HB",        1150.0, 0.2,  0.6,  24.0,  90.0,  0.125, 0.25, RECALLED,   RECALLED,        KC_GUIDE, KP_RECALLED, STARTING,   TEXTBOOK, [GREY_CLASS_30], [CAST_IRON];
    "ASTM A48 class 40",  [],                                        "as cast",                     "Grey cast iron",                       K, 16, 7.25, 120.0, 0.26, 11.0e-6,  -,      "215 HB",        1350.0, 0.28, 0.71, 18.0,  80.0,  0.125, 0.25, RECALLED,   RECALLED,        KC_GUIDE, KP_RECALLED, STARTING,   TEXTBOOK, [GREY_CLASS_40], [CAST_IRON];
    "ASTM A536 65-45-12", ["UNS F33100"],                            "as cast",                     "Ductile iron",                         K, 17, 7.1,  168.0, 0.29, 11.5e-6,  310.0,  "165 HB",        1225.0, 0.25, 0.55, 24.0,  100.0, 0.125, 0.25, CALLISTER,  RECALLED,        KC_GUIDE, GUESS,       STARTING,   TEXTBOOK, [], [CAST_IRON];
    "ASTM A536 80-55-06", ["UNS F33800"],                            "as cast",                     "Ductile iron",                         K, 18, 7.1,  168.0, 0.31, 11.0e-6,  380.0,  "220 HB",        1350.0, 0.28, 0.75, 18.0,  85.0,  0.125, 0.25, CALLISTER,  RECALLED,        KC_GUIDE, GUESS,       STARTING,   TEXTBOOK, [], [CAST_IRON];
    "6061-T6",            ["UNS A96061-T6" "EN AW-6061 T6"],         "T6",                          "Wrought aluminium",                    N, 22, 2.7,  69.0,  0.33, 23.4e-6,  276.0,  "95 HB",         800.0,  0.25, 0.33, 75.0,  350.0, 0.125, 0.25, MECHANICS,  MECHANICS_YIELD, KC_GUIDE, KP_RECALLED, SHOP_TABLE, TEXTBOOK, [MANUAL_SPEEDS], [ALUMINIUM];
    "7075-T6",            ["UNS A97075-T6" "EN AW-7075 T6"],         "T6",                          "Wrought aluminium",                    N, 22, 2.81, 71.7,  0.33, 23.4e-6,  503.0,  "150 HB",        800.0,  0.25, 0.33, 75.0,  350.0, 0.125, 0.25, DATA_PAGE,  YIELD_70_KSI,    KC_GUIDE, KP_RECALLED, SHOP_TABLE, TEXTBOOK, [MANUAL_SPEEDS], [ALUMINIUM];
    "2024-T3",            ["UNS A92024-T3" "EN AW-2024 T3"],         "T3",                          "Wrought aluminium",                    N, 22, 2.77, 73.0,  0.33, 23.2e-6,  345.0,  "120 HB",        800.0,  0.25, 0.33, 75.0,  350.0, 0.125, 0.25, CALLISTER,  RECALLED,        KC_GUIDE, KP_RECALLED, STARTING,   TEXTBOOK, [], [ALUMINIUM];
    "A356.0-T6",          ["UNS A13560-T6"],                         "T6",                          "Cast aluminium",                       N, 24, 2.68, 72.4,  0.33, 21.5e-6,  205.0,  "80 HB",         700.0,  0.25, 0.25, 70.0,  300.0, 0.125, 0.25, RECALLED,   RECALLED,        KC_GUIDE, KP_RECALLED, STARTING,   TEXTBOOK, [], [ALUMINIUM];
    "C36000",             [],                                        "half hard",                   "Free-cutting brass",                   N, 26, 8.5,  97.0,  0.31, 20.5e-6,  310.0,  "78 HRB",        700.0,  0.27, 0.3,  75.0,  200.0, 0.125, 0.25, DATABASE,   RECALLED,        KC_GUIDE, KP_RECALLED, STARTING,   TEXTBOOK, [], [LEAD];
    "C26000",             [],                                        "half hard",                   "Cartridge brass",                      N, 27, 8.53, 110.0, 0.33, 19.9e-6,  360.0,  "70 HRB",        700.0,  0.27, 0.5,  60.0,  150.0, 0.125, 0.25, DATABASE,   RECALLED,        KC_GUIDE, KP_RECALLED, STARTING,   TEXTBOOK, [];
    "C93200",             ["SAE 660"],                               "as cast",                     "Bearing bronze",                       N, 26, 8.93, 100.0, 0.34, 18.0e-6,  125.0,  "65 HB",         700.0,  0.27, 0.5,  45.0,  140.0, 0.125, 0.25, RECALLED,   RECALLED,        KC_GUIDE, KP_RECALLED, STARTING,   TEXTBOOK, [], [LEAD];
    "C11000",             [],                                        "hard drawn",                  "Electrolytic tough-pitch copper",      N, 28, 8.89, 117.0, 0.33, 17.0e-6,  310.0,  "50 HRB",        700.0,  0.27, 0.91, 30.0,  110.0, 0.125, 0.25, DATABASE,   RECALLED,        KC_GUIDE, KP_RECALLED, STARTING,   TEXTBOOK, [COPPER];
    "C17200",             [],                                        "TF00 aged",                   "Beryllium copper",                     N, 27, 8.25, 128.0, 0.3,  16.7e-6,  1100.0, "38 HRC",        700.0,  0.27, 0.9,  18.0,  70.0,  0.125, 0.25, RECALLED,   RECALLED,        KC_GUIDE, GUESS,       STARTING,   TEXTBOOK, [COPPER], [BERYLLIUM];
    "Ti-6Al-4V",          ["Ti grade 5" "UNS R56400"],               "annealed",                    "Titanium alpha-beta alloy",            S, 37, 4.43, 114.0, 0.34, 8.6e-6,   880.0,  "334 HB",        1245.0, 0.24, 0.65, 9.0,   40.0,  0.125, 0.25, RECALLED,   RECALLED,        KC_GUIDE, KP_RECALLED, STARTING,   TEXTBOOK, [TI_ALPHA_BETA], [TITANIUM];
    "Ti grade 2",         ["UNS R50400"],                            "annealed",                    "Commercially pure titanium",           S, 36, 4.51, 103.0, 0.34, 8.6e-6,   275.0,  "160 HB",        1160.0, 0.24, 0.65, 25.0,  60.0,  0.125, 0.25, RECALLED,   RECALLED,        KC_GUIDE, GUESS,       STARTING,   TEXTBOOK, [TI_PURE], [TITANIUM];
    "Alloy 718",          ["UNS N07718" "2.4668"],                   "solution treated and aged",   "Nickel superalloy",                    S, 34, 8.19, 200.0, 0.29, 13.0e-6,  1035.0, "363 HB",        3300.0, 0.24, 1.12, 5.0,   25.0,  0.125, 0.25, RECALLED,   RECALLED,        KC_GUIDE, KP_RECALLED, STARTING,   TEXTBOOK, [FORCES_DIFFER], [NICKEL];
    "Alloy 625",          ["UNS N06625" "2.4856"],                   "annealed",                    "Nickel superalloy",                    S, 33, 8.44, 208.0, 0.28, 12.8e-6,  415.0,  "190 HB",        3300.0, 0.24, 1.1,  6.0,   28.0,  0.125, 0.25, RECALLED,   RECALLED,        KC_GUIDE, KP_RECALLED, STARTING,   TEXTBOOK, [FORCES_DIFFER], [NICKEL];
    "Alloy 400",          ["UNS N04400" "2.4360"],                   "annealed",                    "Nickel-copper alloy",                  S, 33, 8.8,  179.0, 0.32, 13.9e-6,  240.0,  "130 HB",        3300.0, 0.24, 1.0,  20.0,  60.0,  0.125, 0.25, RECALLED,   RECALLED,        KC_GUIDE, KP_RECALLED, STARTING,   TEXTBOOK, [FORCES_DIFFER], [NICKEL];
    "AZ31B",              ["UNS M11311"],                            "H24",                         "Magnesium alloy",                      N, -,  1.77, 45.0,  0.35, 26.0e-6,  220.0,  "73 HB",         -,      -,    0.1,  150.0, 450.0, 0.125, 0.25, DATABASE,   RECALLED,        -,        KP_RECALLED, STARTING,   TEXTBOOK, [NO_KC11], [MAGNESIUM];
    "POM-C",              [],                                        "extruded",                    "Acetal copolymer",                     N, -,  1.41, 2.8,   0.37, 110.0e-6, 65.0,   "M84 Rockwell",  -,      -,    0.05, 120.0, 250.0, 0.125, 0.25, RECALLED,   RECALLED,        -,        GUESS,       STARTING,   TEXTBOOK, [NO_KC11 PLASTIC], [ACETAL];
    "PA66",               ["nylon 6/6"],                             "extruded, dry",               "Nylon 6/6",                            N, -,  1.14, 3.0,   0.4,  80.0e-6,  80.0,   "R115 Rockwell", -,      -,    0.05, 120.0, 250.0, 0.125, 0.25, RECALLED,   RECALLED,        -,        GUESS,       STARTING,   TEXTBOOK, [NO_KC11 PLASTIC];
    "PE-UHMW",            [],                                        "extruded",                    "UHMW polyethylene",                    N, -,  0.94, 0.75,  0.46, 180.0e-6, 21.0,   "D65 Shore",     -,      -,    0.04, 150.0, 300.0, 0.125, 0.25, CALLISTER,  RECALLED,        -,        GUESS,       STARTING,   TEXTBOOK, [NO_KC11 PLASTIC];
    "PTFE",               [],                                        "moulded",                     "PTFE",                                 N, -,  2.17, 0.5,   0.46, 130.0e-6, 10.0,   "D55 Shore",     -,      -,    0.04, 120.0, 250.0, 0.125, 0.25, CALLISTER,  RECALLED,        -,        GUESS,       STARTING,   TEXTBOOK, [NO_KC11 PLASTIC], [PTFE_FUME];
    "PC",                 [],                                        "extruded",                    "Polycarbonate",                        N, -,  1.2,  2.4,   0.37, 68.0e-6,  62.0,   "R118 Rockwell", -,      -,    0.05, 100.0, 200.0, 0.125, 0.25, RECALLED,   RECALLED,        -,        GUESS,       STARTING,   TEXTBOOK, [NO_KC11 PLASTIC];
    "PVC-U",              [],                                        "extruded",                    "Rigid PVC",                            N, -,  1.4,  2.9,   0.38, 60.0e-6,  50.0,   "D80 Shore",     -,      -,    0.05, 100.0, 200.0, 0.125, 0.25, RECALLED,   RECALLED,        -,        GUESS,       STARTING,   TEXTBOOK, [NO_KC11 PLASTIC], [PVC_FUME];
}

/// Every material of the table.
pub fn materials() -> &'static [Material] {
    MATERIALS
}

//! What can hurt somebody says so in every interface: in the record, the reference, the C header and the Python stubs.
use std::path::Path;

/// Formulas whose result can hurt somebody, with words that their caution must hold.
const HAZARDS: &[(&str, &[&str])] = &[
    ("press_fit", LICENSED),
    ("stepped_press_fit", LICENSED),
    ("press_force_at", &["line of the press", "licensed engineer"]),
    ("press_stresses", LICENSED),
    ("yielding_interference", LICENSED),
    ("compound_tube", &["Pressure vessels kill", "licensed engineer"]),
    ("press_joint", LICENSED),
    ("required_interference", LICENSED),
    ("roughness_loss", LICENSED),
    ("assembled_joint", LICENSED),
    ("interference_lost_to_heat", LICENSED),
    ("loosening_rise", LICENSED),
    ("interference_lost_to_speed", &["burst", "licensed engineer"]),
    ("release_speed", &["burst", "licensed engineer"]),
    ("joining_temperature", &["burn", "ventilate", "licensed engineer"]),
    ("cooling_temperature", &["burn", "ventilate", "licensed engineer"]),
    ("knurled_torque_bound", &["trial", "licensed engineer"]),
    ("knurled_joint", &["trial", "licensed engineer"]),
    ("groove_fill", &["trial"]),
    ("screw_preload", LICENSED),
    ("thread_stress_area", LICENSED),
    ("thread_stress_area_unified", LICENSED),
    ("seat_margin", &["thrown"]),
    ("strap_clamp_force", THROWN),
    ("thread_clamp_force", LICENSED),
    ("cam_clamp_force", THROWN),
    ("cam_locking_friction", THROWN),
    ("toggle_clamp_force", THROWN),
    ("wedge_clamp_force", THROWN),
    ("wedge_locking_angle", THROWN),
    ("cylinder_clamp_force", THROWN),
    ("collet_clamp_force", THROWN),
    ("required_clamp_force", THROWN),
    ("clamp_holding", THROWN),
    ("required_vee_force", THROWN),
    ("vee_holding", THROWN),
    ("vee_grip", THROWN),
    ("required_grip", &["throws the work"]),
    ("grip_holding", &["throws the work"]),
    ("step_seat", &["thrown"]),
    ("ring_in_jaws", &["thrown", "collapses"]),
    ("grinding_wheel_speed", &["burst", "ring test"]),
    ("grinding_wheel_greatest_spindle_speed", &["burst", "ring test"]),
    ("chuck_speed_share", &["throws the work"]),
    ("jaw_centrifugal_force", &["throws the work"]),
    ("gripping_force_at_speed", &["throws the work"]),
    ("whipping_speed", &["whips"]),
    ("supported_whipping_speed", &["whips"]),
    ("bar_deflection_chuck", &["support it"]),
    ("edge_temperature", &["burn", "fire"]),
    ("spindle_speed", CHUCK),
    ("turning_cut", CHUCK),
    ("turning_cut_for_target", CHUCK),
    ("milling_cut", CHUCK),
    ("drilling_cut", CHUCK),
    ("facing_time", CHUCK),
    ("facing_time_constant_spindle", CHUCK),
    ("parting_time", &["comes free", "chuck_speed_share"]),
];
const THROWN: &[&str] = &["comes loose is thrown", "measure the force"];
const LICENSED: &[&str] = &["licensed engineer"];
const CHUCK: &[&str] = &["lowest limit", "chuck_speed_share"];

fn file(path: &str) -> String {
    std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join(path)).unwrap()
}

/// What stands from `start` to the next `end`.
fn section<'a>(text: &'a str, start: &str, end: &str) -> &'a str {
    let from = text.split_once(start).unwrap_or_else(|| panic!("no `{start}`")).1;
    from.split_once(end).map_or(from, |(section, _)| section)
}

/// The comment that ends right above `start`.
fn comment_above<'a>(text: &'a str, start: &str) -> &'a str {
    let above = text.split_once(start).unwrap_or_else(|| panic!("no `{start}`")).0;
    above.rsplit_once("/**").unwrap().1
}

/// `press_fit` as `PressFit`.
fn camel(name: &str) -> String {
    name.split('_').map(|word| word[..1].to_uppercase() + &word[1..]).collect()
}

#[test]
fn what_can_hurt_has_its_caution() {
    for (name, words) in HAZARDS {
        let caution = tenths::find(name).unwrap_or_else(|| panic!("no {name}")).caution.unwrap_or_default();
        for word in *words {
            assert!(caution.contains(word), "{name} must say `{word}`, not `{caution}`");
        }
    }
}

#[test]
fn every_caution_stands_at_every_face() {
    let [reference, header] = [file("docs/formulas.md"), file("ffi/include/tenths.h")];
    let stubs = file("python/tenths/_formula.pyi");
    let mut count = 0;
    for formula in tenths::formulas() {
        let Some(caution) = formula.caution else { continue };
        let name = formula.name;
        assert!(
            section(&reference, &format!("\n### {name}\n"), "\n### ").contains(caution),
            "{name} in docs"
        );
        let declared = format!("tenths_status tenths_{name}(");
        assert!(comment_above(&header, &declared).contains(caution), "{name} in C");
        let class = format!("class _{}(", camel(name));
        assert!(section(&stubs, &class, "@overload").contains(caution), "{name} in stubs");
        count += 1;
    }
    assert!(count >= HAZARDS.len(), "{count}");
}

/// A caution in the meaning as well would be a second text, to fall out of step with the first.
#[test]
fn no_caution_hides_in_the_meaning() {
    for formula in tenths::formulas() {
        for word in ["licensed engineer", "Wheels burst", "can injure"] {
            assert!(!formula.doc.contains(word), "{} says `{word}` outside its caution", formula.name);
        }
    }
}

/// Objects whose misuse can hurt somebody say so where each interface prints what they are.
#[test]
fn objects_that_can_hurt_have_their_caution() {
    let [reference, header, stubs] =
        [file("docs/objects.md"), file("ffi/include/tenths.h"), file("python/tenths/_tenths.pyi")];
    for (name, struct_name, words) in [
        ("ClampSafety", "tenths_clamp_safety", "work that comes loose is thrown"),
        ("Locating", "tenths_locating", "geometry alone holds no part"),
    ] {
        let record = tenths::registry::objects().iter().find(|record| record.name == name).unwrap();
        let told = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ").replace(" * ", " ");
        assert!(told(record.doc).contains(words), "{name}");
        let page = section(&reference, &format!("\n## {name}\n"), "\n## ");
        assert!(told(page).contains(words), "{name} in docs: {page}");
        let comment = comment_above(&header, &format!("typedef struct {struct_name} {{"));
        assert!(told(comment).contains(words), "{name} in C");
        let class = section(&stubs, &format!("class {name}("), "\n@final");
        assert!(told(class).contains(words), "{name} in stubs");
    }
}

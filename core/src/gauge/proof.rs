//! What the members of a gauge prove.
use super::kinds::GaugeForm;

impl GaugeForm {
    /// What GO and NO-GO prove, after Taylor's principle: the limit of most material wants a full form, the limit
    /// of least material a contact at two points.
    pub const fn proves(self) -> [&'static str; 2] {
        match self {
            GaugeForm::Plug => [
                "A plug as long as the hole that goes in proves the envelope at maximum material: the whole hole \
                 clears a perfect shaft at its lower limit. A shorter plug proves as much only of its own length.",
                "A plug that does not go in, from either end, proves that the hole is not over its upper limit all \
                 round at its mouth. An oval hole may still be; only contact at two points, turned and moved \
                 along, proves each local size at least material.",
            ],
            GaugeForm::Ring => [
                "A ring as long as the shaft that goes over proves the envelope at maximum material: the whole \
                 shaft enters a perfect hole at its upper limit. A shorter ring proves as much only of its own \
                 length.",
                "A ring that does not go over, from either end, proves that the shaft is not under its lower limit \
                 all round at its end. An oval shaft may still be; only contact at two points, turned and moved \
                 along, proves each local size at least material.",
            ],
            GaugeForm::Length => [
                "A gap that passes proves that the part is not over its upper limit where the faces reach. The \
                 envelope at maximum material is proved only by faces that cover the whole part.",
                "A gap that does not pass proves that the part is not under its lower limit where it was tried. \
                 Narrow faces, tried all over, prove each local size at least material.",
            ],
            GaugeForm::Snap => [
                "A snap gauge that passes proves that no local size is over the upper limit where it was tried. It \
                 does not prove the envelope at maximum material: a bent or lobed shaft may pass, and wants a ring \
                 as long as the shaft.",
                "A snap gauge that does not pass, turned and moved along, proves that no local size is under the \
                 lower limit where it was tried: the check at two points that this limit wants.",
            ],
            GaugeForm::FlushPin => [
                "A pin that is not past the land for the upper limit proves that the depth is not over that limit \
                 where the pin stood. The form of the face is not proved.",
                "A pin that is not short of the land for the lower limit proves that the depth is not under that \
                 limit where the pin stood. The form of the face is not proved.",
            ],
        }
    }
}

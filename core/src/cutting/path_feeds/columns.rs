//! The segments of a path.

/// The segments of a path in columns of one length, in the units of the cut: mm and 1/mm, or in and 1/in.
#[derive(Clone, Copy, Debug)]
pub struct PathColumns<'a> {
    /// Length of each along the path of the cutter's centre.
    pub lengths: &'a [f64],
    /// Curvature of that path: positive inside an arc, negative outside, 0 on a straight line.
    pub curvatures: &'a [f64],
    /// Width of cut across the axis and the feed; 0 in the air.
    pub radial_widths: &'a [f64],
    /// Depth of cut along the axis; 0 in the air.
    pub axial_depths: &'a [f64],
}

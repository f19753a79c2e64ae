//! The parts of glTF 2.0 that a standing house needs, named as the standard names them.

use serde::Serialize;

/// 32-bit numbers with a fraction.
pub(super) const FLOAT: u32 = 5126;
/// 32-bit whole numbers.
pub(super) const UNSIGNED_INT: u32 = 5125;
/// What a buffer view is for: corners.
pub(super) const ARRAY_BUFFER: u32 = 34962;
/// What a buffer view is for: indices.
pub(super) const ELEMENT_ARRAY_BUFFER: u32 = 34963;

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct Root<'a> {
    pub(super) asset: Asset<'a>,
    pub(super) scene: usize,
    pub(super) scenes: [Scene<'a>; 1],
    pub(super) nodes: Vec<Node>,
    pub(super) meshes: Vec<Mesh>,
    pub(super) materials: Vec<Material>,
    pub(super) accessors: Vec<Accessor>,
    pub(super) buffer_views: Vec<BufferView>,
    pub(super) buffers: [Buffer; 1],
}

#[derive(Serialize)]
pub(super) struct Asset<'a> {
    pub(super) version: &'a str,
    pub(super) generator: &'a str,
    #[serde(skip_serializing_if = "str::is_empty")]
    pub(super) copyright: &'a str,
}

#[derive(Serialize)]
pub(super) struct Scene<'a> {
    pub(super) name: &'a str,
    pub(super) nodes: [usize; 1],
}

#[derive(Default, Serialize)]
pub(super) struct Node {
    pub(super) name: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) mesh: Option<usize>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(super) children: Vec<usize>,
    /// A unit quaternion: x, y, z, w.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) rotation: Option<[f64; 4]>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) translation: Option<[f64; 3]>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) extras: Option<Extras>,
}

/// What is ours on a node.
#[derive(Serialize)]
pub(super) struct Extras {
    /// Stable id in the house.
    pub(super) id: String,
}

#[derive(Serialize)]
pub(super) struct Mesh {
    pub(super) name: String,
    pub(super) primitives: Vec<Primitive>,
}

#[derive(Serialize)]
pub(super) struct Primitive {
    pub(super) attributes: Attributes,
    pub(super) indices: usize,
    pub(super) material: usize,
}

#[derive(Serialize)]
#[serde(rename_all = "UPPERCASE")]
pub(super) struct Attributes {
    pub(super) position: usize,
    pub(super) normal: usize,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct Material {
    pub(super) name: String,
    pub(super) pbr_metallic_roughness: Surface,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) alpha_mode: Option<&'static str>,
    #[serde(skip_serializing_if = "is_false")]
    pub(super) double_sided: bool,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct Surface {
    /// Linear red, green, blue and cover.
    pub(super) base_color_factor: [f64; 4],
    pub(super) metallic_factor: f64,
    pub(super) roughness_factor: f64,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct Accessor {
    pub(super) buffer_view: usize,
    pub(super) byte_offset: usize,
    pub(super) component_type: u32,
    pub(super) count: usize,
    #[serde(rename = "type")]
    pub(super) kind: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) min: Option<[f64; 3]>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) max: Option<[f64; 3]>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct BufferView {
    pub(super) buffer: usize,
    pub(super) byte_offset: usize,
    pub(super) byte_length: usize,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) byte_stride: Option<usize>,
    pub(super) target: u32,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct Buffer {
    pub(super) byte_length: usize,
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde hands out references")]
fn is_false(value: &bool) -> bool {
    !value
}

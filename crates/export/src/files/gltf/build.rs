//! Collects nodes, meshes and materials, and packs them into one file.

use super::json::{
    ARRAY_BUFFER, Accessor, Asset, Attributes, Buffer, BufferView, ELEMENT_ARRAY_BUFFER, Extras, FLOAT, Material, Mesh,
    Node, Primitive, Root, Scene, Surface, UNSIGNED_INT,
};
use gable_drawing::Shade;
use gable_mesh::{Theme, Token};
use gable_plane::{P3, Rigid, V3};
use std::collections::BTreeMap;

/// Metres in a millimetre.
const METRES: f64 = 0.001;
/// How rough biscuit, icing and sugar look: 1 is quite dull (common practice, no source).
const DULL: f64 = 0.9;
const SHINY: f64 = 0.15;

/// How a surface looks.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Look {
    /// Colour in sRGB.
    pub(super) rgb: [u8; 3],
    /// What the glazing is called, if it is glazing.
    pub(super) glass: Option<&'static str>,
}

impl Look {
    pub(super) fn plain(rgb: [u8; 3]) -> Self {
        Self { rgb, glass: None }
    }

    pub(super) fn token(token: Token) -> Self {
        let colour = token.srgb(Theme::Light);
        Self::plain([colour.r, colour.g, colour.b])
    }

    fn name(&self) -> String {
        let known = [
            (Token::BiscuitWall, "biscuit of walls"),
            (Token::BiscuitRoof, "biscuit of roofs"),
            (Token::BiscuitFloor, "biscuit of floors"),
            (Token::BiscuitParapet, "biscuit of parapets"),
            (Token::Icing, "icing"),
            (Token::Pressed, "pressed line"),
        ];
        let [r, g, b] = self.rgb;
        match (self.glass, known.iter().find(|(token, _)| Self::token(*token).rgb == self.rgb)) {
            (Some(glass), _) => glass.to_owned(),
            (None, Some((_, name))) => (*name).to_owned(),
            (None, None) => format!("colour #{r:02x}{g:02x}{b:02x}"),
        }
    }

    fn material(&self) -> Material {
        let [r, g, b] = self.rgb.map(linear);
        let cover = if self.glass.is_some() { Shade::GLASS_COVERS } else { 1.0 };
        Material {
            name: self.name(),
            pbr_metallic_roughness: Surface {
                base_color_factor: [r, g, b, cover],
                metallic_factor: 0.0,
                roughness_factor: if self.glass.is_some() { SHINY } else { DULL },
            },
            alpha_mode: self.glass.map(|_| "BLEND"),
            double_sided: self.glass.is_some(),
        }
    }
}

/// A channel of sRGB as linear light (IEC 61966-2-1), to five decimals.
fn linear(channel: u8) -> f64 {
    let c = f64::from(channel) / 255.0;
    let light = if c <= 0.04045 { c / 12.92 } else { ((c + 0.055) / 1.055).powf(2.4) };
    (light * 1e5).round() / 1e5
}

/// Triangles with their looks, counter-clockwise seen from outside, mm.
pub(super) type Triangles = Vec<([P3; 3], Look)>;

/// A glTF file in the making. Node 0 is the house; z of the house becomes y.
pub(super) struct Build {
    /// Metres in the file to a millimetre of the house.
    unit: f64,
    nodes: Vec<Node>,
    meshes: Vec<Mesh>,
    looks: Vec<Look>,
    accessors: Vec<Accessor>,
    positions: Vec<u8>,
    normals: Vec<u8>,
    indices: Vec<u8>,
}

impl Build {
    pub(super) fn new(title: &str, scale: f64) -> Self {
        let half = std::f64::consts::FRAC_1_SQRT_2;
        // A quarter turn about x: (x, y, z) comes to (x, z, -y), so that the front looks along +z.
        let house = Node { name: title.to_owned(), rotation: Some([-half, 0.0, 0.0, half]), ..Node::default() };
        Self {
            unit: METRES * scale,
            nodes: vec![house],
            meshes: Vec::new(),
            looks: Vec::new(),
            accessors: Vec::new(),
            positions: Vec::new(),
            normals: Vec::new(),
            indices: Vec::new(),
        }
    }

    /// Adds a thing under another one and gives its number; nothing where it has no triangles.
    pub(super) fn add(
        &mut self,
        under: usize,
        (id, name): (&str, &str),
        place: &Rigid,
        things: &Triangles,
    ) -> Option<usize> {
        let mesh = self.mesh(name, things)?;
        let number = self.nodes.len();
        let q = place.rotation.quaternion();
        let rotation = [q.i, q.j, q.k, q.w];
        let translation = place.translation.vector * self.unit;
        let extras = (!id.is_empty()).then(|| Extras { id: id.to_owned() });
        self.nodes.push(Node {
            name: name.to_owned(),
            mesh: Some(mesh),
            rotation: (q.w.abs() < 1.0).then_some(rotation),
            translation: (translation != V3::zeros()).then_some([translation.x, translation.y, translation.z]),
            extras,
            ..Node::default()
        });
        self.nodes.get_mut(under)?.children.push(number);
        Some(number)
    }

    fn mesh(&mut self, name: &str, things: &Triangles) -> Option<usize> {
        let mut by_look: Vec<(usize, Vec<[P3; 3]>)> = Vec::new();
        for (triangle, look) in things {
            let material = self.look(look);
            match by_look.iter_mut().find(|(own, _)| *own == material) {
                Some((_, list)) => list.push(*triangle),
                None => by_look.push((material, vec![*triangle])),
            }
        }
        let primitives: Vec<Primitive> =
            by_look.into_iter().filter_map(|(material, list)| self.primitive(&list, material)).collect();
        if primitives.is_empty() {
            return None;
        }
        self.meshes.push(Mesh { name: name.to_owned(), primitives });
        Some(self.meshes.len() - 1)
    }

    fn look(&mut self, look: &Look) -> usize {
        self.looks.iter().position(|own| own == look).unwrap_or_else(|| {
            self.looks.push(look.clone());
            self.looks.len() - 1
        })
    }

    /// Triangles of one look; corners are shared where place and normal are the same.
    fn primitive(&mut self, triangles: &[[P3; 3]], material: usize) -> Option<Primitive> {
        let (starts, index_start) = ([self.positions.len(), self.normals.len()], self.indices.len());
        let mut known: BTreeMap<[u32; 6], u32> = BTreeMap::new();
        let (mut low, mut high) = ([f32::INFINITY; 3], [f32::NEG_INFINITY; 3]);
        let mut count = 0;
        for [a, b, c] in triangles {
            let Some(normal) = (b - a).cross(&(c - a)).try_normalize(1e-12) else { continue };
            // Adding zero turns -0 into 0.
            let normal = [normal.x, normal.y, normal.z].map(|x| x as f32 + 0.0);
            let corners = [a, b, c].map(|p| [p.x, p.y, p.z].map(|x| (x * self.unit) as f32 + 0.0));
            if corners[0] == corners[1] || corners[1] == corners[2] || corners[2] == corners[0] {
                // Nothing is left of it in 32 bits.
                continue;
            }
            for p in corners {
                let key = [p[0], p[1], p[2], normal[0], normal[1], normal[2]].map(f32::to_bits);
                let next = known.len() as u32;
                let index = *known.entry(key).or_insert(next);
                if index == next {
                    self.positions.extend(p.iter().flat_map(|x| x.to_le_bytes()));
                    self.normals.extend(normal.iter().flat_map(|x| x.to_le_bytes()));
                    for k in 0..3 {
                        (low[k], high[k]) = (low[k].min(p[k]), high[k].max(p[k]));
                    }
                }
                self.indices.extend(index.to_le_bytes());
                count += 1;
            }
        }
        if count == 0 {
            return None;
        }
        let first = self.accessors.len();
        let corners = |view: usize, min, max| Accessor {
            buffer_view: view,
            byte_offset: starts[view],
            component_type: FLOAT,
            count: known.len(),
            kind: "VEC3",
            min,
            max,
        };
        self.accessors.push(corners(0, Some(low.map(f64::from)), Some(high.map(f64::from))));
        self.accessors.push(corners(1, None, None));
        self.accessors.push(Accessor {
            buffer_view: 2,
            byte_offset: index_start,
            component_type: UNSIGNED_INT,
            count,
            kind: "SCALAR",
            min: None,
            max: None,
        });
        Some(Primitive { attributes: Attributes { position: first, normal: first + 1 }, indices: first + 2, material })
    }

    /// The file: a chunk of JSON and a chunk of numbers.
    ///
    /// # Errors
    /// When the numbers cannot be written as JSON; they can.
    pub(super) fn packed(self, title: &str, credit: &str) -> Result<Vec<u8>, serde_json::Error> {
        let mut start = 0;
        let mut view = |bytes: &[u8], stride: Option<usize>, target: u32| {
            let view =
                BufferView { buffer: 0, byte_offset: start, byte_length: bytes.len(), byte_stride: stride, target };
            start += bytes.len();
            view
        };
        let buffer_views = vec![
            view(&self.positions, Some(12), ARRAY_BUFFER),
            view(&self.normals, Some(12), ARRAY_BUFFER),
            view(&self.indices, None, ELEMENT_ARRAY_BUFFER),
        ];
        let root = Root {
            asset: Asset { version: "2.0", generator: "Gablewright", copyright: credit },
            scene: 0,
            scenes: [Scene { name: title, nodes: [0] }],
            nodes: self.nodes,
            meshes: self.meshes,
            materials: self.looks.iter().map(Look::material).collect(),
            accessors: self.accessors,
            buffer_views,
            buffers: [Buffer { byte_length: start }],
        };
        let mut json = serde_json::to_vec(&root)?;
        json.resize(json.len().next_multiple_of(4), b' ');
        // All numbers have four bytes, so the second chunk needs no padding.
        let numbers = [self.positions, self.normals, self.indices].concat();
        let mut file = Vec::new();
        file.extend(b"glTF");
        for word in [2, (12 + 8 + json.len() + 8 + numbers.len()) as u32, json.len() as u32] {
            file.extend(word.to_le_bytes());
        }
        file.extend(b"JSON");
        file.extend(json);
        file.extend((numbers.len() as u32).to_le_bytes());
        file.extend(b"BIN\0");
        file.extend(numbers);
        Ok(file)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// IEC 61966-2-1: 0.5 of the signal is 0.21404 of the light; ends are ends.
    #[test]
    fn colours_are_written_as_light() {
        assert_eq!((linear(0), linear(255)), (0.0, 1.0));
        assert!((linear(128) - 0.21586).abs() < 1e-5 && (linear(10) - 0.00304).abs() < 1e-5);
    }
}

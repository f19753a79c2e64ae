//! The scene on the graphics card. Only ever touched from within a paint callback, on the thread of the window.

use super::parts::{
    biscuit, board_part, body_part, clear, edge_part, icing_part, matrix, pane_part, relief_part, toned,
};
use super::scene::Scene;
use crate::marks::Tone;
use eframe::egui_glow;
use egui::PaintCallbackInfo;
use std::cell::RefCell;
use std::sync::Arc;
use three_d::{
    AmbientLight, Camera, ClearState, ColorMaterial, Context, DirectionalLight, Gm, InstancedMesh, Light, Mesh, Object,
    PhysicalMaterial, RenderTarget, ScissorBox, Srgba, ToneMapping, Viewport, radians, vec3,
};

thread_local! {
    static STAGE: RefCell<Option<Stage>> = const { RefCell::new(None) };
}

/// A paint callback that draws the scene into a rectangle of the window.
///
/// The painter of the window sets its own state anew after a callback, so nothing needs to be put back beyond the
/// frame buffer, which stays the same here.
pub(super) fn callback(rect: egui::Rect, scene: Scene) -> egui::PaintCallback {
    let draw = move |info: PaintCallbackInfo, painter: &egui_glow::Painter| {
        STAGE.with_borrow_mut(|slot| {
            if slot.is_none() {
                *slot = Context::from_gl_context(Arc::clone(painter.gl())).ok().map(Stage::new);
            }
            if let Some(stage) = slot {
                stage.draw(&info, &scene);
            }
        });
    };
    egui::PaintCallback { rect, callback: Arc::new(egui_glow::CallbackFn::new(draw)) }
}

/// Gives everything back to the driver; called while its context still lives.
pub(crate) fn close() {
    STAGE.with_borrow_mut(|slot| *slot = None);
}

type Lit = Gm<Mesh, PhysicalMaterial>;

struct Stage {
    context: Context,
    ambient: AmbientLight,
    sun: DirectionalLight,
    window: DirectionalLight,
    /// What is left of the day in the evening.
    dusk: AmbientLight,
    moon: DirectionalLight,
    number: Option<(u64, u64)>,
    posed: Option<Scene>,
    bodies: Vec<Lit>,
    /// What stands out from pieces, with their numbers.
    relief: Vec<(usize, Lit)>,
    /// Panes of pieces, with their numbers.
    panes: Vec<(usize, Gm<Mesh, ColorMaterial>)>,
    edges: Vec<Gm<InstancedMesh, ColorMaterial>>,
    ornaments: Option<Lit>,
    icing: Option<Lit>,
    board: Option<Lit>,
}

impl Stage {
    fn new(context: Context) -> Self {
        let white = Srgba::WHITE;
        Self {
            ambient: AmbientLight::new(&context, 0.42, white),
            sun: DirectionalLight::new(&context, 1.9, Srgba::new_opaque(255, 246, 234), vec3(-0.45, 0.75, -0.9)),
            window: DirectionalLight::new(&context, 0.6, Srgba::new_opaque(226, 236, 255), vec3(0.9, -0.2, -0.3)),
            dusk: AmbientLight::new(&context, 0.42, Srgba::new_opaque(170, 185, 225)),
            moon: DirectionalLight::new(&context, 0.9, Srgba::new_opaque(170, 190, 235), vec3(0.6, 0.5, -0.7)),
            context,
            number: None,
            posed: None,
            bodies: Vec::new(),
            relief: Vec::new(),
            panes: Vec::new(),
            edges: Vec::new(),
            ornaments: None,
            icing: None,
            board: None,
        }
    }

    fn draw(&mut self, info: &PaintCallbackInfo, scene: &Scene) {
        self.update(scene);
        let picture = info.viewport_in_pixels();
        let viewport = Viewport {
            x: picture.left_px,
            y: picture.from_bottom_px,
            width: picture.width_px.max(1) as u32,
            height: picture.height_px.max(1) as u32,
        };
        let clip = info.clip_rect_in_pixels();
        let scissor = ScissorBox {
            x: clip.left_px,
            y: clip.from_bottom_px,
            width: clip.width_px.max(1) as u32,
            height: clip.height_px.max(1) as u32,
        };
        let target = RenderTarget::screen(&self.context, info.screen_size_px[0], info.screen_size_px[1]);
        target.clear_partially(scissor, ClearState::depth(1.0));
        let day: [&dyn Light; 3] = [&self.ambient, &self.sun, &self.window];
        let night: [&dyn Light; 2] = [&self.dusk, &self.moon];
        let lights: &[&dyn Light] = if scene.evening { &night } else { &day };
        target.render_partially(scissor, camera(viewport, scene), self.objects(scene), lights);
    }

    fn objects(&self, scene: &Scene) -> Vec<&dyn Object> {
        let seen = |k: usize| !scene.hidden.get(k).copied().unwrap_or(false);
        let whole = !scene.hidden.contains(&true);
        let icing = self.icing.iter().filter(|_| scene.icing && whole);
        let icing = icing.chain(self.ornaments.iter().filter(|_| scene.standing && whole));
        // Colours are on the biscuit itself.
        let covers = |k: usize| seen(k) && scene.tones.is_empty() && !scene.is_clear(k);
        let relief = self.relief.iter().filter(|(k, _)| covers(*k)).map(|(_, part)| part);
        let bodies = self.bodies.iter().enumerate().filter(|(k, _)| seen(*k)).map(|(_, body)| body);
        let lit = bodies.chain(relief).chain(&self.board).chain(icing).map(|o| o as &dyn Object);
        let panes = self.panes.iter().filter(|(k, _)| seen(*k)).map(|(_, part)| part as &dyn Object);
        let edges = self.edges.iter().enumerate().filter(|(k, _)| seen(*k)).map(|(_, edge)| edge as &dyn Object);
        lit.chain(edges).chain(panes).collect()
    }

    fn update(&mut self, scene: &Scene) {
        if self.number != Some((scene.number, scene.cut)) {
            self.number = Some((scene.number, scene.cut));
            self.posed = None;
            self.bodies = scene.model.bodies.iter().map(|b| body_part(&self.context, b)).collect();
            let relief = scene.model.relief.iter().enumerate();
            let relief = relief.filter_map(|(k, mesh)| Some((k, relief_part(&self.context, mesh.as_deref()?))));
            self.relief = relief.collect();
            let panes = scene.model.panes.iter().enumerate();
            self.panes = panes.filter_map(|(k, mesh)| Some((k, pane_part(&self.context, mesh.as_deref()?)))).collect();
            self.ornaments = scene.model.ornaments.as_deref().map(|mesh| relief_part(&self.context, mesh));
            self.icing = icing_part(&self.context, &scene.model.icing, scene.theme);
        }
        let same = self.posed.as_ref().is_some_and(|old| {
            old.pose == scene.pose
                && old.chosen == scene.chosen
                && old.theme == scene.theme
                && old.icing == scene.icing
                && (old.evening, &old.hidden, &old.tones, &old.clear)
                    == (scene.evening, &scene.hidden, &scene.tones, &scene.clear)
        });
        let moved = self.posed.as_ref().is_none_or(|old| {
            old.pose != scene.pose
                || old.icing != scene.icing
                || (&old.hidden, &old.clear) != (&scene.hidden, &scene.clear)
        });
        if !same {
            self.place(scene);
            self.tint(scene);
        }
        if moved {
            self.cast_shadows(scene);
        }
        self.posed = Some(scene.clone());
    }

    fn place(&mut self, scene: &Scene) {
        for (body, place) in self.bodies.iter_mut().zip(scene.pose.iter()) {
            body.set_transformation(matrix(place));
        }
        for (k, part) in &mut self.relief {
            if let Some(place) = scene.pose.get(*k) {
                part.set_transformation(matrix(place));
            }
        }
        for (k, part) in &mut self.panes {
            if let Some(place) = scene.pose.get(*k) {
                part.set_transformation(matrix(place));
            }
        }
        let bounds = scene.model.bounds(&scene.pose);
        self.board = bounds.map(|bounds| board_part(&self.context, bounds, scene.theme));
        let placed = scene.model.bodies.iter().zip(scene.pose.iter()).zip(&scene.chosen);
        let size = bounds.map_or(100.0, |(low, high)| (high - low).norm());
        self.edges = placed
            .map(|((body, place), chosen)| edge_part(&self.context, body, place, (*chosen, scene.theme), size))
            .collect();
    }

    fn tint(&mut self, scene: &Scene) {
        let kinds = scene.model.bodies.iter().zip(&scene.chosen);
        let pale = !scene.tones.is_empty();
        for (k, (body, (kind, chosen))) in self.bodies.iter_mut().zip(kinds).enumerate() {
            let tone = scene.tones.get(k).copied().flatten().filter(|tone| *tone != Tone::Plain);
            body.material.albedo =
                tone.map_or_else(|| biscuit(kind.token, *chosen, pale, scene.theme), |tone| toned(tone, scene.theme));
            clear(body, scene.is_clear(k));
        }
        // Sugar with a lamp behind it.
        let glow = if scene.evening { Srgba::new_opaque(255, 206, 110) } else { Srgba::WHITE };
        for (_, pane) in &mut self.panes {
            pane.material.color = glow;
        }
    }

    /// The sun stands still, so shadows change only when something moves.
    fn cast_shadows(&mut self, scene: &Scene) {
        let seen = |k: usize| !scene.hidden.get(k).copied().unwrap_or(false) && !scene.is_clear(k);
        let icing = self.icing.iter().filter(|_| scene.icing && !scene.hidden.contains(&true));
        let bodies = self.bodies.iter().enumerate().filter(|(k, _)| seen(*k)).map(|(_, body)| body);
        let casters: Vec<&Mesh> = bodies.chain(icing).chain(&self.board).map(|o| &o.geometry).collect();
        // Without a shadow map the picture is only plainer.
        let _ = self.sun.generate_shadow_map(2048, casters);
    }
}

fn camera(viewport: Viewport, scene: &Scene) -> Camera {
    let v = |p: gable_plane::P3| vec3(p.x as f32, p.y as f32, p.z as f32);
    let eye = &scene.camera;
    let near = (eye.distance * 0.02).max(0.5) as f32;
    let far = (eye.distance * 10.0 + 5000.0) as f32;
    let angle = radians(eye.angle() as f32);
    let up = eye.up();
    let up = vec3(up.x as f32, up.y as f32, up.z as f32);
    let mut camera = if eye.parallel {
        // The height is told for each millimetre between eye and target.
        let tall = eye.tall() / (eye.station() - eye.target).norm();
        Camera::new_orthographic(viewport, v(eye.station()), v(eye.target), up, tall as f32, 1.0, 25_000.0)
    } else {
        Camera::new_perspective(viewport, v(eye.eye()), v(eye.target), up, angle, near, far)
    };
    // Colours are meant as they are named.
    camera.tone_mapping = ToneMapping::None;
    camera
}

use crate::args::PictureArgs;
use crate::failure::Failure;
use crate::house;
use gable_export::{save, write_png, write_svg};
use gable_measure::Angle;
use gable_mesh::{Pose, View};
use std::io::Write;

/// Width of a PNG, pixels.
const PIXELS: u32 = 1600;

/// Draws the house into a file.
pub(crate) fn run(args: &PictureArgs, out: &mut dyn Write) -> Result<(), Failure> {
    let pose = pose(&args.pose)?;
    let (round, up) = directions(&args.from)?;
    let ending = args.to.extension().map(|e| e.to_string_lossy().to_lowercase()).unwrap_or_default();
    if ending != "svg" && ending != "png" {
        return Err(Failure::Usage(format!("--to {}: the name must end in .svg or .png", args.to.display())));
    }
    let house = house::load(&args.house)?;
    let solved = gable_shell::solve(&house);
    house::refuse_blocked(&args.house, &solved)?;
    let view = View { board: false, ..View::from(round, up) };
    let drawing = gable_mesh::dressed_picture(&solved, &gable_dress::dress(&house, &solved), pose, &view);
    let bytes = match ending.as_str() {
        "svg" => write_svg(&drawing).into_bytes(),
        _ => write_png(&drawing, PIXELS).map_err(|e| Failure::Usage(e.to_string()))?,
    };
    save(&args.to, &bytes).map_err(|e| Failure::Usage(e.to_string()))?;
    writeln!(out, "{}", args.to.display())?;
    Ok(())
}

fn pose(text: &str) -> Result<Pose, Failure> {
    match text {
        "standing" => Ok(Pose::Standing),
        "flat" => Ok(Pose::Fold(0.0)),
        number => match number.parse::<f64>() {
            Ok(share) if (0.0..=1.0).contains(&share) => Ok(Pose::Fold(share)),
            _ => Err(Failure::Usage(format!("--pose {text}: expected standing, flat or a number from 0 to 1"))),
        },
    }
}

fn directions(text: &str) -> Result<(Angle, Angle), Failure> {
    let numbers: Option<Vec<f64>> = text.split(',').map(|part| part.trim().parse().ok()).collect();
    match numbers.as_deref() {
        Some([round, up]) if round.is_finite() && up.abs() <= 90.0 => Ok((Angle::degrees(*round), Angle::degrees(*up))),
        _ => Err(Failure::Usage(format!(
            "--from {text}: expected two numbers of degrees such as 32,24, the second from -90 to 90"
        ))),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn poses_and_directions_are_read_or_refused() {
        assert!(matches!(pose("0.5"), Ok(Pose::Fold(s)) if s == 0.5));
        assert!(matches!(pose("standing"), Ok(Pose::Standing)));
        for wrong in ["up", "1.5", "-0.1", "NaN", ""] {
            assert!(pose(wrong).is_err(), "{wrong}");
        }
        assert!(directions("-40, 12.5").is_ok());
        for wrong in ["40", "1,2,3", "x,y", "0,91", "NaN,0"] {
            assert!(directions(wrong).is_err(), "{wrong}");
        }
    }
}

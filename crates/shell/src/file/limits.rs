//! What a house may measure. Outside these bounds something was mistyped, or nothing could be baked.

use gable_measure::{Angle, Length};

/// Smallest size of a part: less is crumbs, and no two walls of any dough fit into it.
pub const SMALLEST_PART: Length = Length::mm_of(5.0);
/// Largest size of a part: ten household trays in a row; more is a mistyped unit.
pub const LARGEST_PART: Length = Length::mm_of(3000.0);
/// Shortest side of a plan: what a knife can cut.
pub const SHORTEST_SIDE: Length = Length::mm_of(1.0);
/// Farthest that a part may stand from the middle of the base board.
pub const FARTHEST_PLACE: Length = Length::mm_of(10_000.0);
/// Widest gap for icing: a piped bead holds no more (common practice, no source).
pub const WIDEST_GAP: Length = Length::mm_of(10.0);
/// Thinnest rolled dough: gum paste is rolled to about this, gingerbread tears.
pub const THINNEST_DOUGH: Length = Length::mm_of(1.0);
/// Thickest rolled dough: more bakes dark outside and raw within.
pub const THICKEST_DOUGH: Length = Length::mm_of(30.0);
/// Least baked over rolled thickness: no dough shrinks to less.
pub const LEAST_RISE: f64 = 0.5;
/// Most baked over rolled thickness: beyond what honey dough with potash does.
pub const MOST_RISE: f64 = 3.0;
/// Flattest slope: below it a roof is a lid.
pub const FLATTEST_PITCH: Angle = Angle::degrees(5.0);
/// Steepest slope: above it a roof is a wall, and its edges become needles.
pub const STEEPEST_PITCH: Angle = Angle::degrees(80.0);
/// Widest overhang: more breaks off.
pub const WIDEST_OVERHANG: Length = Length::mm_of(500.0);
/// Widest rim round a passage: several times what any glued edge needs (common practice, no source).
pub const WIDEST_RIM: Length = Length::mm_of(100.0);
/// Lowest parapet: what can still be cut as a strip.
pub const LOWEST_PARAPET: Length = Length::mm_of(2.0);
/// Highest parapet.
pub const HIGHEST_PARAPET: Length = Length::mm_of(500.0);
/// Most steps of a floor.
pub const MOST_STEPS: u8 = 20;
/// Most plates in the rise of one step.
pub const MOST_PLATES_OF_STEP: u8 = 10;
/// Usual tread: about two thicknesses, which shows from above (common practice, no source).
pub const USUAL_TREAD: Length = Length::mm_of(15.0);
/// Narrowest tread: less cannot be seen.
pub const NARROWEST_TREAD: Length = Length::mm_of(1.0);
/// Widest tread.
pub const WIDEST_TREAD: Length = Length::mm_of(500.0);
/// Most posts in a row.
pub const MOST_POSTS: u8 = 60;
/// Narrowest post: what can still be cut as a strip.
pub const NARROWEST_POST: Length = Length::mm_of(2.0);
/// Widest post: more is a wall.
pub const WIDEST_POST: Length = Length::mm_of(500.0);
/// Most strips of a post.
pub const MOST_STRIPS: u8 = 10;
/// Smallest opening: what the tip of a knife can take out.
pub const SMALLEST_OPENING: Length = Length::mm_of(2.0);
/// Fewest sides of a plan.
pub const FEWEST_SIDES: u8 = 3;
/// Most sides of a plan.
pub const MOST_SIDES: u8 = 24;
/// Fewest sides of the bulge of a bay.
pub const FEWEST_BAY_SIDES: u8 = 2;
/// Most sides of the bulge of a bay.
pub const MOST_BAY_SIDES: u8 = 12;
/// Least turn at a corner of a plan; less is a straight wall with a corner typed into it.
pub const LEAST_TURN: Angle = Angle::degrees(0.1);
/// Most parts of a house.
pub const MOST_PARTS: usize = 2000;
/// Most pairs of parts that are settled one by one.
pub const MOST_DECIDED: usize = 10_000;
/// Most sizes that follow others.
pub const MOST_RELATIONS: usize = 2000;
/// Most wishes about the order of assembly.
pub const MOST_WISHES: usize = 2000;
/// Characters of the name of a piece: that of its part, and what it is of it.
pub const LONGEST_PIECE: usize = 200;
/// Most batches that are baked: three of each part.
pub const MOST_BAKED: usize = 3 * MOST_PARTS;
/// Most pieces of a batch.
pub const MOST_CUT: usize = 500;
/// Most corners of a piece as it was cut: doors have their arcs in it.
pub const MOST_CUT_CORNERS: usize = 10_000;
/// Thinnest biscuit: what the thinnest dough that shrinks leaves.
pub const THINNEST_BISCUIT: Length = Length::mm_of(0.5);
/// Thickest biscuit: what the thickest dough rises to.
pub const THICKEST_BISCUIT: Length = Length::mm_of(90.0);
/// Most doughs of a house.
pub const MOST_DOUGHS: usize = 50;
/// Most openings of a part.
pub const MOST_OPENINGS: usize = 500;
/// Most finishes of a house.
pub const MOST_FINISHES: usize = 500;
/// Most ornaments of a house.
pub const MOST_ORNAMENTS: usize = 2000;
/// Most shades of a finish.
pub const MOST_SHADES: usize = 12;
/// Smallest size of a unit of a finish: what tweezers hold.
pub const SMALLEST_UNIT: Length = Length::mm_of(1.0);
/// Largest size of a unit of a finish.
pub const LARGEST_UNIT: Length = Length::mm_of(1000.0);
/// Thinnest unit or ornament: gum paste as thin as it is rolled.
pub const THINNEST_UNIT: Length = Length::mm_of(0.2);
/// Least share of a shade.
pub const LEAST_SHARE: f64 = 0.001;
/// Largest share of a shade.
pub const MOST_SHARE: f64 = 1000.0;
/// Most seconds for one act of work.
pub const SLOWEST: f64 = 3600.0;
/// Characters of a title, name or other single line.
pub const LONGEST_LINE: usize = 300;
/// Characters of an id.
pub const LONGEST_ID: usize = 60;
/// Characters of the notes.
pub const LONGEST_NOTES: usize = 50_000;
/// Bytes of a file, many times what the largest house needs.
pub const LONGEST_FILE: usize = 16 * 1024 * 1024;
/// Lowest arc over an opening: less is a straight head.
pub const LEAST_RISE_OF_ARC: Length = Length::mm_of(0.5);
/// Radius of the arcs of a pointed arch over its width: at a half it is round, and beyond this a needle.
pub const POINTED_RADIUS: (f64, f64) = (0.51, 10.0);
/// Most corners of the outline of an opening.
pub const MOST_OPENING_CORNERS: u8 = 60;
/// Shortest edge of the outline of an opening, as a share of its size.
pub const SHORTEST_SHARE: f64 = 1e-3;
/// Characters of the path data of an opening.
pub const LONGEST_PATH: usize = 20_000;
/// Most copies of an opening, and lights of a window, in one direction.
pub const MOST_COPIES: u8 = 40;
/// Most that is taken off a door so that it goes in.
pub const WIDEST_CLEARANCE: Length = Length::mm_of(10.0);
/// Farthest that a door stands open: against its wall.
pub const WIDEST_AJAR: Angle = Angle::degrees(180.0);
/// Smallest leaf of glazing.
pub const SMALLEST_LEAF: Length = Length::mm_of(10.0);

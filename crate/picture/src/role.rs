//! Roles: what a shape is. How it looks follows from that alone.

/// What a shape draws.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Role {
    // Matter: ink and two tints.
    /// A pole: tint, ink outline.
    Timber,
    /// A working rope.
    Rope,
    /// The lay marks of a working rope, over it.
    Lay,
    /// A slack rope; its hollow core goes over it.
    SlackRope,
    /// The hollow core of a slack rope.
    Core,
    /// A cord, a bridle, a sling.
    Cord,
    /// The block of a lashing.
    Wrap,
    /// The turns of a lashing.
    Turn,
    /// A pulley or a ring.
    Sheave,
    /// Its pin.
    Pin,
    /// What is below ground or behind.
    Hidden,
    /// The line of the ground or of a rock face.
    GroundLine,
    /// The short strokes on the earth side of it.
    GroundStroke,
    /// A limb of a person: a round stroke as wide as the pen of its path.
    Limb,
    /// Face and hands.
    Skin,
    /// A helmet, set off by a gap of paper.
    Helmet,
    /// A litter or a weight.
    Basket,
    /// The rail of a litter.
    Rail,
    /// Its ribs.
    Rib,
    /// A blanket.
    Blanket,
    /// Where a rope or a line of ground is cut at the edge of the plate.
    Break,

    // Forces: colour, and a shape of their own.
    /// The shaft of a force.
    Shaft(Kind),
    /// The head of a force; an open one is a stroke, a closed one is filled.
    Head(Kind),
    /// The sign of the ground at the tail of a ground force.
    GroundSign,
    /// A sum of forces: outline only.
    Sum,

    // What was before, what would come.
    /// Dashed graphite.
    Pencil,
    /// Solid graphite: the head of a dashed arrow.
    PencilSolid,
    /// A thin dashed position along a fall.
    Strobe,
    /// Thin solid graphite: the way of a fall.
    PencilThin,

    // Measures.
    /// A dimension line.
    Dimension,
    /// The leader of a label.
    Leader,
    /// The plumb line through the foot.
    Axis,
    /// Ticks of a scale.
    Tick,
    /// The end of a working range.
    Stop,
    /// A scale outside the working range.
    OutBand,
    /// A scale inside it.
    InBand,
    /// Round a part past its allowable.
    Sleeve,
    /// The line of a scale bar.
    Bar,
    /// A handle at rest.
    Grip,
    /// A handle that is dragged.
    GripDragged,
    /// The frame round a handle that has the focus.
    GripFocus,
    /// The brackets of a range mark.
    MarkBracket,
    /// The dot of a range mark.
    MarkDot,

    // Curves.
    /// A curve inside the working range.
    Curve(Kind, Weight),
    /// A curve outside it.
    CurveOutside(Kind),
    /// Between the hairlines of an uncertainty band.
    Band(Kind),
    /// A hairline of it.
    BandEdge(Kind),
    /// An axis.
    AxisLine,
    /// A grid line: no meaning.
    Grid,
    /// A limit.
    Limit,
    /// The cursor.
    Cursor,
    /// Where the cursor meets a curve.
    Dot(Kind),
    /// The area outside the working range.
    OutArea,

    // Lettering.
    /// Words and numbers.
    Text(Lettering, Tone),
}

/// The kinds of force.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Kind {
    /// Timber pushes.
    Push,
    /// Rope pulls.
    Pull,
    /// The load weighs.
    Load,
    /// The ground answers.
    Ground,
}

/// How heavy a curve is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Weight {
    /// The first of two.
    Full,
    /// The second.
    Thin,
}

/// Kinds of lettering.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Lettering {
    /// Names: label face, light.
    Name,
    /// Values: label face, heavy, a point larger.
    Value,
    /// Notes and numbers of scales: smaller.
    Note,
    /// The one number that leads: large, heavy.
    Lead,
    /// Titles in the figure: text italic.
    Title,
    /// The caution in the foot of a print: text italic, smaller.
    Caution,
}

/// The colour of lettering.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Tone {
    /// Ink.
    Ink,
    /// Lighter ink.
    Quiet,
    /// The colour of a force.
    Of(Kind),
}

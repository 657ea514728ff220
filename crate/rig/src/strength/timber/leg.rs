//! A leg as a column of timber.

use super::super::{Basis, Capacity, CheckRule, Citation, Notes, Source, Symbol};
use super::{Code, GradeValues, Section, Timber, eurocode, nds};
use crate::Leg;

/// The compression (N) that a leg may carry beside the bending `moment` (N m) of its own weight, and what becomes of
/// it under the compression `carried`, which is only put down.
///
/// `None` where section or grade are not known, and for a leg more slender than the NDS' formula is valid for.
pub(crate) fn capacity(
    leg: &Leg,
    timber: &Timber,
    moment: f64,
    carried: f64,
    notes: &mut impl Notes,
) -> Option<Capacity> {
    let length = leg.working_length();
    notes.put(Symbol::Compression, carried);
    notes.put(Symbol::OwnWeightMoment, moment);
    notes.put(Symbol::EffectiveLength, length);
    let grade = timber.grade?;
    let section = leg.pole.section()?;
    let stated = || {
        let source = Citation::none(Source::Stated);
        let (compression, bending) = (timber.compression?, timber.bending?);
        Some(GradeValues { compression, bending, stiffness: timber.stiffness?, source })
    };
    let values = grade.values().or_else(stated)?;
    let crook = leg.pole.crook.unwrap_or(0.0);
    let eccentricity = leg.pole.eccentricity.unwrap_or(section.thickness() / 2.0);
    if let Section::Round(diameter) = section {
        notes.put(Symbol::Diameter, diameter);
    }
    notes.put(Symbol::Area, section.area());
    notes.put(Symbol::Crook, crook);
    notes.put(Symbol::Eccentricity, eccentricity);
    let pole = Pole { length, section, moment: moment.abs(), crook, eccentricity, carried: carried.max(0.0) };
    let assumed = grade.assumed();
    match grade.code() {
        Code::Nds => pole.by_nds(timber, &values, grade.sized(), notes),
        Code::En1995 => Some(pole.by_en_1995(timber, &values, notes)),
    }
    .map(|capacity| Capacity { assumed, ..capacity })
}

/// The column itself.
struct Pole {
    length: f64,
    section: Section,
    moment: f64,
    crook: f64,
    eccentricity: f64,
    carried: f64,
}

impl Pole {
    fn by_nds(
        &self,
        timber: &Timber,
        values: &GradeValues,
        sized: bool,
        notes: &mut impl Notes,
    ) -> Option<Capacity> {
        let section = self.section;
        let side = section.side();
        let slenderness = self.length / side;
        notes.put(Symbol::Side, side);
        notes.put(Symbol::Slenderness, slenderness);
        if slenderness > nds::MOST_SLENDER {
            return None;
        }
        let c_d = nds::load_duration(timber.duration);
        let (c_f, c) = match section {
            Section::Sawn(thickness, depth) if sized => (nds::size_factors(thickness, depth), nds::SAWN),
            Section::Sawn(..) => ((1.0, 1.0), nds::SAWN),
            Section::Round(_) => ((1.0, 1.0), nds::ROUND),
        };
        let [wet_c, wet_b, wet_e] =
            nds::wet_service(timber.moisture, values.compression * c_f.0, values.bending * c_f.1);
        let fc_star = values.compression * c_d * wet_c * c_f.0;
        let fb_prime = values.bending * c_d * wet_b * c_f.1;
        let f_ce = nds::critical_buckling(values.stiffness * wet_e, slenderness);
        let c_p = nds::column_stability(f_ce / fc_star, c);
        let fc_prime = fc_star * c_p;
        let column = nds::Column {
            fc_prime,
            fb_prime,
            f_ce,
            f_b: self.moment / (section.area() * section.core()),
            crook: self.crook / section.core(),
            eccentric: self.eccentricity / section.core(),
        };
        let allowable = column.greatest_compression() * section.area();

        let f_c = self.carried / section.area();
        notes.put(Symbol::Fc, values.compression);
        notes.put(Symbol::Fb, values.bending);
        notes.put(Symbol::EMin, values.stiffness);
        notes.put(Symbol::CD, c_d);
        notes.put(Symbol::CMc, wet_c);
        notes.put(Symbol::CMb, wet_b);
        notes.put(Symbol::CMe, wet_e);
        notes.put(Symbol::CFc, c_f.0);
        notes.put(Symbol::CFb, c_f.1);
        notes.put(Symbol::FcStar, fc_star);
        notes.put(Symbol::FcE, f_ce);
        notes.put(Symbol::C, c);
        notes.put(Symbol::CP, c_p);
        notes.put(Symbol::FcPrime, fc_prime);
        notes.put(Symbol::FbPrime, fb_prime);
        notes.put(Symbol::StressC, f_c);
        notes.put(Symbol::StressWeight, column.f_b + f_c * column.crook);
        notes.put(Symbol::StressEccentric, f_c * column.eccentric);
        notes.put(Symbol::Interaction, column.interaction(f_c));
        Some(Capacity {
            strength: fc_prime * section.area(),
            allowable: Some(allowable),
            failure: None,
            basis: Basis::Design,
            assumed: false,
            rule: CheckRule::NdsColumn,
            source: values.source,
        })
    }

    /// The load is taken as one that comes and goes throughout, also what of it is the legs' own weight; the bending of
    /// that weight as one that stays. Bending about the weaker axis, added to the compression in full (6.23, 6.24); a
    /// stocky leg is not allowed the square of 6.19.
    fn by_en_1995(&self, timber: &Timber, values: &GradeValues, notes: &mut impl Notes) -> Capacity {
        let section = self.section;
        let (area, core) = (section.area(), section.core());
        let lambda = self.length / section.gyration();
        let relative = eurocode::relative_slenderness(lambda, values.compression, values.stiffness);
        let k_c = eurocode::buckling(relative);
        let k_mod = eurocode::modification(timber.moisture, timber.duration);
        let f_cd = eurocode::design_strength(values.compression, k_mod);
        let f_md = eurocode::design_strength(values.bending, k_mod);
        let off = (self.crook + self.eccentricity) / core;
        // The compression at which σ_c/(k_c f_c) + σ_m/f_m is 1, its factors being `on_load` and `on_weight`.
        let most = |f_c: f64, f_m: f64, on_load: f64, on_weight: f64| {
            let room = 1.0 - on_weight * self.moment / (area * core * f_m);
            room.max(0.0) * area / (on_load * (1.0 / (k_c * f_c) + off / f_m))
        };
        let strength = most(values.compression, values.bending, 1.0, 1.0);
        let allowable = most(f_cd, f_md, eurocode::GAMMA_Q, eurocode::GAMMA_G);

        let sigma_c = eurocode::GAMMA_Q * self.carried / area;
        let sigma_m = eurocode::GAMMA_G * self.moment / (area * core) + sigma_c * off;
        notes.put(Symbol::Fc0k, values.compression);
        notes.put(Symbol::Fmk, values.bending);
        notes.put(Symbol::E05, values.stiffness);
        notes.put(Symbol::Kmod, k_mod);
        notes.put(Symbol::GammaM, eurocode::GAMMA_M);
        notes.put(Symbol::GammaQ, eurocode::GAMMA_Q);
        notes.put(Symbol::GammaG, eurocode::GAMMA_G);
        notes.put(Symbol::Lambda, lambda);
        notes.put(Symbol::LambdaRel, relative);
        notes.put(Symbol::Kc, k_c);
        notes.put(Symbol::Fc0d, f_cd);
        notes.put(Symbol::Fmd, f_md);
        notes.put(Symbol::SigmaC, sigma_c);
        notes.put(Symbol::SigmaM, sigma_m);
        notes.put(Symbol::Unity, sigma_c / (k_c * f_cd) + sigma_m / f_md);
        Capacity {
            strength,
            allowable: Some(allowable),
            failure: Some(strength),
            basis: Basis::Characteristic,
            assumed: false,
            rule: CheckRule::En1995Column,
            source: values.source,
        }
    }
}

//! Where a fact comes from. Every source is declared once here, and cited by name.

/// A document, and how well we know what it says.
#[derive(Debug, PartialEq, Eq)]
pub struct Source {
    /// Permanent key, as in the tables of published values.
    pub key: &'static str,
    /// Title with edition and place in it.
    pub title: &'static str,
    /// How its content reached us.
    pub known: HowKnown,
}

/// How the content of a source reached us.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HowKnown {
    /// The text or the table was read.
    Read,
    /// Another document quotes it.
    Quoted,
    /// Recalled, not opened: to be checked against the text.
    Memory,
    /// What the trade does; no document is behind it.
    CommonPractice,
    /// Follows from definitions or from algebra.
    Derived,
    /// Stands on the device, and whoever entered it has read it there.
    Entered,
}

impl HowKnown {
    /// In words.
    pub const fn words(self) -> &'static str {
        match self {
            HowKnown::Read => "read in the source",
            HowKnown::Quoted => "as quoted by another document",
            HowKnown::Memory => "from memory, to be checked against the text",
            HowKnown::CommonPractice => "common practice, no source",
            HowKnown::Derived => "by definition or algebra",
            HowKnown::Entered => "as entered here",
        }
    }
}

/// Declares the sources and the list of them.
macro_rules! sources {
    ($( $name:ident $known:ident $key:literal $title:literal; )+) => {
        $(
            #[doc = $title]
            pub static $name: Source = Source { key: $key, title: $title, known: HowKnown::$known };
        )+
        /// Every source.
        pub static ALL: &[&Source] = &[$(&$name),+];
    };
}

sources! {
    TAC_117_32 Read "25-tac-117-32"
        "25 Texas Administrative Code 117.32(b) and (c), water treatment: contact time, the portable exemption, times of the chlorine test";
    CFR_494_40 Memory "42-cfr-494-40" "42 CFR 494.40, condition: water and dialysate quality";
    ISO_23500_3 Quoted "iso-23500-3-2019" "ISO 23500-3:2019, quality of water for haemodialysis, tables 1 and 2";
    AAMI_RD62 Quoted "aami-rd62-2001" "ANSI/AAMI RD62:2001, table 1, as USP <1230> reprints it; RD52:2004 has the same values";
    PH_EUR_1167 Memory "ph-eur-1167" "European Pharmacopoeia, monograph 1167, haemodialysis solutions, concentrated, water for diluting";
    ISO_15883_1 Quoted "iso-15883-1" "ISO 15883-1, washer-disinfectors, annex B: the A0 concept";
    IAPWS_SR6_08 Quoted "iapws-sr6-08" "IAPWS SR6-08(2011), liquid water at 0.1 MPa";
    IAPWS_R12_08 Quoted "iapws-r12-08" "IAPWS R12-08, viscosity of ordinary water substance (2008)";
    ASTM_D4516 Quoted "astm-d4516-19a" "ASTM D4516-19a, standardizing reverse osmosis performance data";
    ASTM_D3739 Quoted "astm-d3739-19" "ASTM D3739-19, Langelier saturation index for reverse osmosis, clause 7.1";
    NFPA_291 Read "nfpa-291" "NFPA 291, recommended practice for fire flow testing: flow at another pressure, Q = Q_F (h_r / h_f)^0.54";
    EPA_815_R_06_009 Memory "epa-815-r-06-009" "EPA 815-R-06-009, Membrane Filtration Guidance Manual (2005)";
    COLEBROOK_1939 Quoted "colebrook-1939" "C. F. Colebrook, J. Inst. Civil Eng. 11 (1939) 133-156";
    SWAMEE_JAIN_1976 Quoted "swamee-jain-1976" "P. K. Swamee, A. K. Jain, J. Hydraul. Div. ASCE 102 (1976) 657-664";
    BURCH_CHRISTENSEN_2007 Quoted "burch-christensen-2007"
        "J. Burch, C. Christensen, Towards development of an algorithm for mains water temperature, ASES 2007";
    STANDARD_METHODS_2510 Quoted "sm-2510" "Standard Methods 2510, conductivity";
    ISO_7888 Quoted "iso-7888-1985" "ISO 7888:1985, electrical conductivity of water: temperature correction of natural waters";
    ERGUN_1952 Quoted "ergun-1952" "S. Ergun, Chem. Eng. Progress 48 (1952) 89-94, fluid flow through packed columns";
    HEAT_BALANCE Derived "heat-balance" "Conservation of heat, by algebra";
    OHM Derived "electric-power" "Power is voltage times current, by definition";
    NFPA_70 Memory "nfpa-70"
        "NFPA 70 (US), National Electrical Code, 210.20(A): a breaker carries a load of three hours or more up to 80 % of its rating";
    STANDARD_METHODS_4500_CL Quoted "sm-4500-cl-g" "Standard Methods 4500-Cl G, chlorine by DPD colorimetry";
    VANT_HOFF_1887 Derived "vant-hoff-1887" "J. H. van 't Hoff, Z. phys. Chem. 1 (1887) 481-508: osmotic pressure of a dilute solution";
    PITZER_MAYORGA_1973 Quoted "pitzer-mayorga-1973" "K. S. Pitzer, G. Mayorga, J. Phys. Chem. 77 (1973) 2300-2308: osmotic coefficients, sodium chloride";
    DAVIES_1962 Quoted "davies-1962" "C. W. Davies, Ion Association, Butterworths, London (1962): activity coefficients";
    TRUESDELL_JONES_1974 Quoted "truesdell-jones-1974" "A. H. Truesdell, B. F. Jones, J. Res. U.S. Geol. Surv. 2 (1974) 233-248: WATEQ, activity coefficients of natural waters";
    PHREEQC_3 Read "phreeqc-3" "D. L. Parkhurst, C. A. J. Appelo, PHREEQC version 3, U.S. Geological Survey Techniques and Methods 6-A43 (2013), database phreeqc.dat";
    PLUMMER_BUSENBERG_1982 Quoted "plummer-busenberg-1982" "L. N. Plummer, E. Busenberg, Geochim. Cosmochim. Acta 46 (1982) 1011-1040: calcite and carbonic acid, 0 to 90 °C";
    STANDARD_METHODS_2330 Memory "sm-2330-b" "Standard Methods 2330 B, indices indicating tendency of a water to precipitate or dissolve calcium carbonate";
    FOURNIER_ROWE_1977 Quoted "fournier-rowe-1977" "R. O. Fournier, J. J. Rowe, Am. Mineral. 62 (1977) 1052-1056: solubility of amorphous silica";
    ASTM_D4993 Quoted "astm-d4993" "ASTM D4993, silica scaling of reverse osmosis: scope as quoted, its graphs not read";
    ASTM_D4692 Memory "astm-d4692" "ASTM D4692, scaling by calcium, strontium and barium sulfate: 0.8 of the solubility product";
    MALMBERG_MARYOTT_1956 Memory "malmberg-maryott-1956" "C. G. Malmberg, A. A. Maryott, J. Res. Natl. Bur. Stand. 56 (1956) 1-8: dielectric constant of water";
    CODATA_2018 Quoted "codata-2018" "CODATA recommended values of the fundamental constants (2018)";
    JCGM_100 Quoted "jcgm-100" "JCGM 100:2008, guide to the expression of uncertainty in measurement";
    JCGM_106 Memory "jcgm-106" "JCGM 106:2012, the role of measurement uncertainty in conformity assessment";
    CRC_KCL Quoted "crc-kcl" "CRC Handbook of Chemistry and Physics, conductivity of potassium chloride standards, after Wu, Koch and Pratt (1991)";
    ASTM_D4189 Quoted "astm-d4189-07" "ASTM D4189-07(2014), silt density index of water";
    LOGARITHM Derived "logarithm" "Definition of the decimal logarithm";
    JCGM_101 Quoted "jcgm-101" "JCGM 101:2008, propagation of distributions using a Monte Carlo method";
    NIST_HANDBOOK Quoted "nist-sematech-handbook"
        "NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2 individuals chart, 6.3.2.4 moving average";
    FIELLER_1954 Memory "fieller-1954" "E. C. Fieller, J. R. Statist. Soc. B 16 (1954) 175-185: interval of a ratio";
    MANN_1945 Quoted "mann-1945" "H. B. Mann, Econometrica 13 (1945) 245, with M. G. Kendall, Rank Correlation Methods (1975)";
    SEN_1968 Quoted "sen-1968" "P. K. Sen, J. Am. Statist. Ass. 63 (1968) 1379-1389: slope by the median of pairs";
    SOLUTION_DIFFUSION Derived "solution-diffusion" "Mass balance and solution-diffusion model of a reverse osmosis membrane";
    MASS_BALANCE Derived "mass-balance" "Conservation of mass, by algebra";
    RESIN_TABLES Quoted "softener-resin-tables"
        "Capacity of strong-acid resin by salt dose, 6 to 15 lb/ft³, as three tables of the trade print it";
    DIALYSIS_MONITORING Quoted "dialysis-monitoring-table"
        "Clinical reference table of what is monitored in water for dialysis: softener, carbon, RO";
    FAIREY_2007 Quoted "fairey-2007"
        "J. L. Fairey, G. E. Speitel, L. E. Katz, J. AWWA 99(7) (2007) 110-120: monochloramine on granular carbon, the abstract";
    SNOEYINK_1981 Quoted "snoeyink-1981" "V. L. Snoeyink et al., Environ. Sci. Technol. 15 (1981) 188: free chlorine on carbon";
    CHLORAMINE_CAPACITY_1983 Quoted "artif-organs-1983"
        "Artif. Organs 7 (1983) 484: five granular carbons differ tenfold in chloramine capacity";
    AMATO_2001 Quoted "amato-2001" "R. L. Amato, Nephrol. Nurs. J. 28(6) (2001): limits, one test for total chlorine, hourly tests while the first carbon fails";
    AAMI_RD52 Memory "aami-rd52-2004" "ANSI/AAMI RD52:2004, dialysate for hemodialysis";
    ISO_23500_3_2024 Memory "iso-23500-3-2024" "ISO 23500-3 and -5:2024, second edition; values unchanged from 2019, to be checked against the text";
    COULLIETTE_2013 Read "coulliette-2013" "A. D. Coulliette, M. J. Arduino, Semin. Dial. 26 (2013) 427-438, table 2: microbial limits side by side";
    JSDT Read "jsdt-water" "Standard of the Japanese Society for Dialysis Therapy, Ren. Replace. Ther. 2 (2016), s41100-016-0016-4, table 2";
    GARWOOD_1936 Memory "garwood-1936" "F. Garwood, Biometrika 28 (1936) 437-442: fiducial limits for the Poisson distribution";
    LEVENSPIEL Quoted "levenspiel" "O. Levenspiel, Chemical Reaction Engineering: tanks in series, distribution of exit ages";
    MICROBIAL_METHODS Memory "microbial-methods"
        "Culture methods of ANSI/AAMI RD52:2004 and Ph. Eur. 1167 (2.6.12), and how samples are kept: 30 minutes, or 24 hours at 6 °C or less";
    RESIDUAL_LIMITS Memory "disinfectant-residual-limits"
        "Residual limits of disinfectants in water treatment for dialysis: peracetic acid 1 mg/L, formaldehyde 3 mg/L";
    EN_12915_1 Quoted "en-12915-1" "EN 12915-1, annex: dechlorination half-value length";
    NSF_42 Memory "nsf-ansi-42" "NSF/ANSI 42, aesthetic effects: chlorine and chloramine reduction of cartridges";
    DEVICE_INSTRUCTIONS Entered "device-instructions" "The label or the instructions of the device itself";
    COMMON_PRACTICE CommonPractice "common-practice" "Common practice of the trade";
}

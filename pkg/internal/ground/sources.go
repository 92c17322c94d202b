package ground

import "example.com/groundrule/pkg/value"

// The sources of the calculations, each with how it is known.
var (
	sourceD2487 = value.Source{ID: "astm_d2487", Document: "ASTM D2487", Clause: "classification and group names", Known: value.Memory,
		Note: "over 12 % fines, the limits of SW and dual symbols were seen in the 1998 edition"}
	sourceD4318 = value.Source{ID: "astm_d4318", Document: "ASTM D4318", Clause: "rounding and nonplastic soils", Known: value.Memory}

	sourceDCP = value.Source{ID: "webster_dcp", Document: "Webster and others, WES IR GL-92-3 (1992) and GL-94-17 (1994); ASTM D6951",
		Clause: "CBR from penetration index", Known: value.Memory}
	sourceDCPHammer = value.Source{ID: "fm5_430_dcp", Document: "FM 5-430-00-2", Clause: "App. J, hammers", Known: value.Seen}
	sourceTRLDCP    = value.Source{ID: "trl_dcp", Document: "TRL, dynamic cone penetrometer, 60 degree cone", Clause: "log CBR = 2.48 - 1.057 log DPI", Known: value.Memory}
	sourceGiroud    = value.Source{ID: "giroud_noiray_1981", Document: "Giroud and Noiray, ASCE JGED 107 GT9 (1981)", Clause: "cu = 30 CBR", Known: value.Memory}
	sourceBlack     = value.Source{ID: "black_lister_1979", Document: "Black and Lister, TRRL LR 889 (1979)", Clause: "cu = 23 CBR", Known: value.Relayed,
		Via: "an engineers' forum", Note: "the document is from memory"}
	sourceBandsSI = value.Source{ID: "clay_bands_si", Document: "bands of Terzaghi and Peck in SI", Clause: "undrained strength of 12.5, 25, 50, 100 and 200 kPa", Known: value.Relayed,
		Via: "an engineers' forum; agrees with TM 5-818-1"}
	sourceTM5_818_1 = value.Source{ID: "tm_5_818_1", Document: "TM 5-818-1/AFM 88-3 Ch. 7", Clause: "Table 2-2", Known: value.Seen}
	sourceTxDOT     = value.Source{ID: "txdot_geotech", Document: "TxDOT Geotechnical Manual LRFD", Clause: "Table 4-2", Known: value.Seen}
	sourceTM3_357   = value.Source{ID: "tm_3_357", Document: "USACE WES TM 3-357 (1953, 1960)", Clause: "App. B", Known: value.Memory}
	sourceNAVFAC    = value.Source{ID: "navfac_dm7_02", Document: "NAVFAC DM-7.02 (1986)", Clause: "Table 1, p. 7.2-39", Known: value.Memory}
	sourceNHI       = value.Source{ID: "nhi_05_037", Document: "FHWA NHI-05-037", Clause: "Table 5-28, field CBR by class", Known: value.Relayed, Via: "a public copy"}
	sourcePercent   = value.Source{ID: "asphalt_institute_percentile", Document: "Asphalt Institute, design percentile by traffic", Known: value.Relayed,
		Via: "Chen and Liew, Civil Engineering Handbook, 2nd ed., p. 62-30"}
	sourceWeakArea = value.Source{ID: "ufc_3_260_02_weak_area", Document: "UFC 3-260-02 (30 Jun 2001)", Clause: "chapter 6, paragraph 3", Known: value.Seen,
		Note: "a reading so low that it does not represent the others marks a weak area; how low that is, and how many readings must reach a value, is this library's own"}

	sourceHeukelom = value.Source{ID: "heukelom_klomp_1962", Document: "Heukelom and Klomp (1962); AASHTO 1993", Clause: "MR = 1500 CBR", Known: value.Relayed,
		Via: "Civil Engineering Handbook, 2nd ed., Eq. 62.23"}
	sourceNCHRPCBR = value.Source{ID: "nchrp_1_37a_cbr", Document: "NCHRP 1-37A (2004)", Clause: "MR = 2555 CBR^0.64", Known: value.Relayed,
		Via: "an engineers' forum", Note: "the range of CBR is from memory"}
	sourceLR1132 = value.Source{ID: "trrl_lr_1132", Document: "Powell and others, TRRL LR 1132 (1984)", Clause: "17.6 CBR^0.64 MPa", Known: value.Memory}
	sourceIndex  = value.Source{ID: "nchrp_1_37a_app_cc", Document: "NCHRP 1-37A App. CC-1; NHI-05-037 Table 5-34", Known: value.Relayed, Via: "a public copy"}

	sourceFrostTable = value.Source{ID: "tm_5_822_5_frost", Document: "TM 5-822-5", Clause: "Table 18-2", Known: value.Memory,
		Note: "order of thaw strength seen in TM 5-822-12 para 7"}
	sourceFASSI  = value.Source{ID: "ufc_3_260_02_fassi", Document: "UFC 3-260-02 (30 Jun 2001)", Clause: "Table 3-5", Known: value.Seen}
	sourceThaw   = value.Source{ID: "ufc_3_260_03_thaw", Document: "UFC 3-260-03 (15 Apr 2001)", Clause: "Table 7-4", Known: value.Seen}
	sourceNTable = value.Source{ID: "tm_5_852_4_n", Document: "TM 5-852-4/AFM 88-19 Ch. 4", Clause: "Table 4-1", Known: value.Seen,
		Note: "no value for pavers; concrete is the nearest surface, 1.0 is safe"}
	sourceKersten  = value.Source{ID: "kersten_1949", Document: "Kersten, University of Minnesota Bulletin 28 (1949)", Known: value.Memory}
	sourceBerggren = value.Source{ID: "modified_berggren", Document: "TM 5-852-4 and a USACE method sheet", Clause: "modified Berggren equation", Known: value.Seen}
	sourceNeumann  = value.Source{ID: "aldrich_paynter_1953", Document: "Aldrich and Paynter (1953)", Clause: "Neumann's solution", Known: value.Memory}
	sourceLSFP     = value.Source{ID: "lsfp_fit", Document: "fit to UFC 3-260-02 Chart 20-6", Clause: "b = c/(1 + r/4), s = b/4", Known: value.Computed,
		Note: "agrees with the one printed example; the rule behind the chart is from memory"}
	sourceLSFPCap = value.Source{ID: "lsfp_cap", Document: "UFC 3-260-02 (30 Jun 2001)", Clause: "ch. 20 example 1, cap of 2.0", Known: value.Seen,
		Note: "the cap of 3.0 is from memory"}

	sourceSnethen = value.Source{ID: "tm_5_818_7_swell", Document: "TM 5-818-7 (1 Sep 1983)", Clause: "Table 4-1, after Snethen, FHWA-RD-77-94", Known: value.Memory}
	sourceClosed  = value.Source{ID: "swell_closed_2021", Document: "Advances in Civil Engineering (2021) 4825593", Clause: "Table 2", Known: value.Seen,
		Note: "printed there under the name of Chen; the numbers are the older USBR set"}

	sourceOwnSafe = value.Source{ID: "groundrule_safe_side", Document: "the weaker of what the table leaves open", Known: value.Computed}
)

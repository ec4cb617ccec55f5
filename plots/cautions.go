package plots

// Cautions returns what must be said with every forecast: about safety, about
// personal data, and about what the figures are.
//
// The titles of 29 CFR 1910.147, ISO 14118 and ISO 14119 were checked against
// copies; those of Subpart O, ISO 12100 and ISO 13849-1 are from memory. No edition
// is named and no conformity claimed. Whether a jam may be cleared under the exception that
// 1910.147 makes for minor servicing depends on the machine, so nothing is said
// that could be read as one.
func Cautions() []string {
	return []string{
		"Clearing a jam can put hands where a machine can start. The maker’s instructions, local law and " +
			"the site’s own energy-control procedure come first, before anything written here. " +
			"In the United States see 29 CFR 1910.147 “The control of hazardous energy (lockout/tagout)” and " +
			"29 CFR 1910 Subpart O “Machinery and Machine Guarding”. On the design of machines see " +
			"ISO 12100 “Safety of machinery — General principles for design — Risk assessment and risk reduction”, " +
			"ISO 13849-1 “Safety of machinery — Safety-related parts of control systems — Part 1: General principles for design”, " +
			"ISO 14118 “Safety of machinery — Prevention of unexpected start-up” and " +
			"ISO 14119 “Safety of machinery — Interlocking devices associated with guards — Principles for design and selection”.",
		"The clearing times of a scenario must be times with guards and lockout respected.",
		"A forecast is no licence to skip, open or defeat a guard or an interlock, whatever rate it shows.",
		"Defective mail that is delivered can disclose personal data. The forecast does not replace the " +
			"verification that your regulator or client requires.",
		"The figures are an estimate from the assumptions stated, by a model whose limits are listed in its " +
			"documentation. They promise nothing of a real line.",
	}
}

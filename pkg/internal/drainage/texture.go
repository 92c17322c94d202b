package drainage

import (
	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// Texture is the texture of a soil: the USDA classes, and gravel beside them,
// which the Minnesota manual lists.
type Texture string

// The textures.
const (
	TextureGravel        Texture = "gravel"
	TextureSand          Texture = "sand"
	TextureLoamySand     Texture = "loamy sand"
	TextureSandyLoam     Texture = "sandy loam"
	TextureLoam          Texture = "loam"
	TextureSiltLoam      Texture = "silt loam"
	TextureSandyClayLoam Texture = "sandy clay loam"
	TextureClayLoam      Texture = "clay loam"
	TextureSiltyClayLoam Texture = "silty clay loam"
	TextureSandyClay     Texture = "sandy clay"
	TextureSiltyClay     Texture = "silty clay"
	TextureClay          Texture = "clay"
)

// Vocabulary lists the textures, fast to slow as the tables do.
func (Texture) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "soil_texture",
		About: "texture of the soil, by the shares of sand, silt and clay",
		Words: []value.WordEntry{
			{Name: "texture_gravel", Label: string(TextureGravel), About: "gravel and sandy gravel, such as GW"},
			{Name: "texture_sand", Label: string(TextureSand), About: "sand, such as SP"},
			{Name: "texture_loamy_sand", Label: string(TextureLoamySand), About: "sand with some silt and clay"},
			{Name: "texture_sandy_loam", Label: string(TextureSandyLoam), About: "loam with much sand"},
			{Name: "texture_loam", Label: string(TextureLoam), About: "sand, silt and clay in balance"},
			{Name: "texture_silt_loam", Label: string(TextureSiltLoam), About: "loam with much silt"},
			{Name: "texture_sandy_clay_loam", Label: string(TextureSandyClayLoam), About: "loam with sand and clay, little silt"},
			{Name: "texture_clay_loam", Label: string(TextureClayLoam), About: "loam with much clay"},
			{Name: "texture_silty_clay_loam", Label: string(TextureSiltyClayLoam), About: "loam with silt and clay, little sand"},
			{Name: "texture_sandy_clay", Label: string(TextureSandyClay), About: "clay with much sand"},
			{Name: "texture_silty_clay", Label: string(TextureSiltyClay), About: "clay with much silt"},
			{Name: "texture_clay", Label: string(TextureClay), About: "clay"},
		},
	}
}

// minnesotaGroupDBelow in in/h: all that the Minnesota manual says of group D,
// clay loam and tighter.
const minnesotaGroupDBelow = 0.2

// minnesotaRates are the design infiltration rates of the Minnesota Stormwater
// Manual (seen), with the group that it sets beside each; the USCS symbols in the
// remarks are the manual's too.
var minnesotaRates = []struct {
	texture       Texture
	group         HydrologicGroup
	inchesPerHour float64
}{
	{TextureGravel, GroupA, 1.6},        // GW
	{TextureSand, GroupA, 0.8},          // SP
	{TextureSiltLoam, GroupB, 0.6},      // SM
	{TextureLoam, GroupB, 0.3},          // MH
	{TextureSandyClayLoam, GroupC, 0.2}, // ML
}

// InfiltrationMinnesota returns the design infiltration rate of a texture: gravel
// 1.6, sand 0.8, silt loam 0.6, loam 0.3, sandy clay loam 0.2 in/h. For clay loam
// and tighter the manual gives only "less than 0.2 in/h": [ErrCannotTell]. Loamy
// sand and sandy loam are not recorded from it: a range error.
//
// Source: Minnesota Stormwater Manual, design infiltration rates, seen.
func InfiltrationMinnesota(texture Texture) (quantity.Rate, error) {
	for _, r := range minnesotaRates {
		if r.texture == texture {
			return quantity.InchesPerHour(r.inchesPerHour), nil
		}
	}
	switch texture {
	case TextureClayLoam, TextureSiltyClayLoam, TextureSandyClay, TextureSiltyClay, TextureClay:
		return 0, cannotTell("design infiltration of %s: the manual gives only less than %g in/h", texture, minnesotaGroupDBelow)
	}
	return 0, noTexture(texture, "gravel, sand, silt loam, loam or sandy clay loam", sourceMinnesotaRates.Document)
}

// HydrologicGroupMinnesota returns the group that the Minnesota manual sets beside
// a texture; clay loam and tighter are D.
//
// Source: Minnesota Stormwater Manual, design infiltration rates, seen.
func HydrologicGroupMinnesota(texture Texture) (HydrologicGroup, error) {
	for _, r := range minnesotaRates {
		if r.texture == texture {
			return r.group, nil
		}
	}
	switch texture {
	case TextureClayLoam, TextureSiltyClayLoam, TextureSandyClay, TextureSiltyClay, TextureClay:
		return GroupD, nil
	}
	return "", noTexture(texture, "the textures that the manual lists", sourceMinnesotaRates.Document)
}

// rawlsRates are the saturated conductivities of Rawls, Brakensiek and Saxton
// (1982), in in/h, from memory.
var rawlsRates = map[Texture]float64{
	TextureSand:          8.27,
	TextureLoamySand:     2.41,
	TextureSandyLoam:     1.02,
	TextureLoam:          0.52,
	TextureSiltLoam:      0.27,
	TextureSandyClayLoam: 0.17,
	TextureClayLoam:      0.09,
	TextureSiltyClayLoam: 0.06,
	TextureSandyClay:     0.05,
	TextureSiltyClay:     0.04,
	TextureClay:          0.02,
}

// ConductivityRawls returns the saturated hydraulic conductivity of a USDA texture.
// Gravel is not in the table: a range error.
//
// Source: Rawls, Brakensiek and Saxton (1982), from memory.
func ConductivityRawls(texture Texture) (quantity.Rate, error) {
	rate, ok := rawlsRates[texture]
	if !ok {
		return 0, noTexture(texture, "the USDA textures, sand to clay", sourceRawls.Document)
	}
	return quantity.InchesPerHour(rate), nil
}

func noTexture(texture Texture, within, document string) error {
	return &calculation.WordError{Name: "soil texture", Got: string(texture), Want: []string{within}, Document: document}
}

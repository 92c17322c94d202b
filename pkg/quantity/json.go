package quantity

import (
	"bytes"
	"encoding/json"
	"fmt"
)

// quantityJSON is the JSON form.
type quantityJSON struct {
	Value *float64 `json:"value"`
	Unit  string   `json:"unit"`
}

// MarshalJSON writes {"value": 0.1524, "unit": "m"}: the exact value in the SI
// base unit of the dimension, as [Dimension.BaseUnit] names it ("1" for a
// ratio), so that what is read back is the same bits. The zero Quantity is null.
func (q Quantity) MarshalJSON() ([]byte, error) {
	if q == (Quantity{}) {
		return []byte("null"), nil
	}
	if err := q.check(); err != nil {
		return nil, err
	}
	return json.Marshal(quantityJSON{&q.SI, q.Dim.BaseUnit()})
}

// UnmarshalJSON reads what [Quantity.MarshalJSON] writes, the same with any
// other unit of [Units], and text as [Parse] reads it, such as "6 in". A bare
// number is refused: it would be a ratio to one reader and a length to another.
// null leaves q as it is.
func (q *Quantity) UnmarshalJSON(data []byte) error {
	data = bytes.TrimSpace(data)
	if string(data) == "null" {
		return nil
	}
	if len(data) > 0 && data[0] == '"' {
		var text string
		if err := json.Unmarshal(data, &text); err != nil {
			return err
		}
		read, err := Parse(text)
		if err != nil {
			return err
		}
		*q = read
		return nil
	}
	if len(data) == 0 || data[0] != '{' {
		return fmt.Errorf(`a quantity is written as {"value": 0.15, "unit": "m"} or as text such as "6 in", not as %.40s`, data)
	}
	if !json.Valid(data) {
		return fmt.Errorf("quantity %.80s: not one JSON value", data)
	}
	var form quantityJSON
	dec := json.NewDecoder(bytes.NewReader(data))
	dec.DisallowUnknownFields()
	if err := dec.Decode(&form); err != nil {
		return fmt.Errorf("quantity: %w", err)
	}
	if form.Value == nil || form.Unit == "" {
		return fmt.Errorf("quantity %.80s: value and unit are both needed", data)
	}
	read, err := form.quantity()
	if err != nil {
		return err
	}
	*q = read
	return nil
}

func (f quantityJSON) quantity() (Quantity, error) {
	for _, d := range Dimensions() {
		if d.BaseUnit() == f.Unit {
			return Quantity{d, *f.Value}, nil
		}
	}
	u, ok := UnitNamed(f.Unit, NoDimension)
	if !ok {
		return Quantity{}, unknownUnit(f.Unit, NoDimension)
	}
	return u.Quantity(*f.Value)
}

"""One row of grooves: how it is approached, cut and finished, in whole counts."""

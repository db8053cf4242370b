"""The pages of the tray under the drawings: one tool each, made when first opened."""

"""Part -> plan: shop settings, evenly pitched sets, tool choice, plunges, speeds, checks."""

"""Finding the view: segments noded into a graph, clusters, axes, and the one view that shows a turned part."""

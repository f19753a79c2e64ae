use petgraph::algo::tarjan_scc;
use petgraph::graph::DiGraph;

/// Groups of things that follow each other in a ring, most of them of one thing; `after[k]` are those that follow k.
pub(crate) fn knots(after: &[Vec<usize>]) -> Vec<Vec<usize>> {
    let mut graph = DiGraph::<(), ()>::new();
    let nodes: Vec<_> = after.iter().map(|_| graph.add_node(())).collect();
    for (k, list) in after.iter().enumerate() {
        for &other in list {
            graph.add_edge(nodes[k], nodes[other], ());
        }
    }
    let sorted = |mut knot: Vec<usize>| {
        knot.sort_unstable();
        knot
    };
    tarjan_scc(&graph).into_iter().map(|knot| sorted(knot.iter().map(|n| n.index()).collect())).collect()
}

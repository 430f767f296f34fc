#include "lemon_oracle.h"

#include <lemon/list_graph.h>
#include <lemon/network_simplex.h>

namespace sunfleck::assign::testing {

std::int64_t least_cost_by_lemon(int item_count, int cell_count, const std::vector<FlowArc>& arcs) {
    using Graph = lemon::ListDigraph;
    Graph graph;
    std::vector<Graph::Node> items;
    std::vector<Graph::Node> cells;
    for (int i = 0; i < item_count; ++i) items.push_back(graph.addNode());
    for (int c = 0; c < cell_count; ++c) cells.push_back(graph.addNode());
    const Graph::Node sink = graph.addNode();
    std::vector<Graph::Arc> graph_arcs;
    for (const FlowArc& arc : arcs) {
        graph_arcs.push_back(graph.addArc(items[static_cast<std::size_t>(arc.item)],
                                          cells[static_cast<std::size_t>(arc.cell)]));
    }
    for (const Graph::Node cell : cells) graph.addArc(cell, sink);
    Graph::ArcMap<std::int64_t> cost(graph, 0);
    Graph::ArcMap<std::int64_t> capacity(graph, 1);
    Graph::NodeMap<std::int64_t> supply(graph, 0);
    for (std::size_t a = 0; a < arcs.size(); ++a) cost[graph_arcs[a]] = arcs[a].cost;
    for (const Graph::Node item : items) supply[item] = 1;
    supply[sink] = -item_count;
    lemon::NetworkSimplex<Graph, std::int64_t, std::int64_t> simplex(graph);
    simplex.costMap(cost).upperMap(capacity).supplyMap(supply);
    return simplex.run() == simplex.OPTIMAL ? simplex.totalCost<std::int64_t>() : -1;
}

}  // namespace sunfleck::assign::testing

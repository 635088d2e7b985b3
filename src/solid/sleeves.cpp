#include "solid/sleeves.hpp"

#include <algorithm>
#include <numeric>

namespace couplet {

namespace {

constexpr std::size_t kMostPassedHubs = 6;

bool within(const Span& inner, const Span& outer) {
    return inner.bottom_mm < outer.top_mm && outer.bottom_mm < inner.top_mm;
}

Span shared(const Span& a, const Span& b) {
    return {std::max(a.bottom_mm, b.bottom_mm), std::min(a.top_mm, b.top_mm)};
}

double length(const Span& span) {
    return span.top_mm - span.bottom_mm;
}

std::vector<Span> spans_of(const std::vector<Hub>& hubs) {
    std::vector<Span> spans;
    for (const Hub& hub : hubs) spans.push_back(hub.span);
    return spans;
}

Span whole(const std::vector<Hub>& hubs) {
    Span span = hubs.front().span;
    for (const Hub& hub : hubs) span.top_mm = std::max(span.top_mm, hub.span.top_mm);
    return span;
}

class Nest {
  public:
    Nest(const std::vector<HubsOnAxis>& members, const SleeveRoom& room) : members_(members), room_(room) {
        for (const HubsOnAxis& each : members) sleeves_.push_back({each.member, 0.0, 0.0, {whole(each.hubs)}, false});
    }

    std::vector<Sleeve> run() {
        cut_crossed();
        if (room_.bearing_mm) lead_to_bearing();
        // Each round takes a shaft out of another's way; hubs at one height stay in each other's.
        for (std::size_t round = 0; !radii_fit() && round < 2 * members_.size(); ++round) {
        }
        return std::move(sleeves_);
    }

  private:
    // Whether shaft a, or a hub on it, passes inside a hub of b: somewhere beyond its own hubs that lie round that one.
    bool passes(std::size_t a, std::size_t b) const {
        return a != b && std::ranges::any_of(sleeves_[a].pieces, [&](const Span& piece) {
                   return std::ranges::any_of(members_[b].hubs, [&](const Hub& hub) {
                       return within(hub.span, piece) && !lies_round(a, hub, shared(hub.span, piece));
                   });
               });
    }

    bool lies_round(std::size_t a, const Hub& inner, const Span& span) const {
        constexpr double kRounding_mm = 1e-9;
        double covered = 0.0;
        for (const Hub& hub : members_[a].hubs)
            if (hub.outer_mm >= inner.outer_mm && within(hub.span, span)) covered += length(shared(hub.span, span));
        return covered >= length(span) - kRounding_mm;
    }

    // Radius of the widest hub of a that shares a height with the span; 0 where there is just the shaft.
    double widest_hub(std::size_t a, const Span& span) const {
        double widest = 0.0;
        for (const Hub& hub : members_[a].hubs)
            if (within(hub.span, span)) widest = std::max(widest, hub.outer_mm);
        return widest;
    }

    // How wide a is where it passes the hubs of b.
    double width_in(std::size_t a, std::size_t b) const {
        double width = sleeves_[a].outer_mm;
        for (const Hub& hub : members_[b].hubs) {
            const double own = widest_hub(a, hub.span);
            if (own < hub.outer_mm) width = std::max(width, own);
        }
        return width;
    }

    void cut(std::size_t m) {
        sleeves_[m].pieces = spans_of(members_[m].hubs);
        sleeves_[m].reaches_bearing = false;
    }

    void cut_crossed() {
        std::vector<std::size_t> rising = by_height();
        for (std::size_t i = 0; i < rising.size(); ++i)
            for (std::size_t k = i + 1; k < rising.size(); ++k) {
                const std::size_t a = rising[i];
                const std::size_t b = rising[k];
                if (members_[b].hubs.front().span.bottom_mm >= sleeves_[a].pieces.back().top_mm) break;
                if (passes(a, b) && passes(b, a)) cut(members_[a].hubs.size() > members_[b].hubs.size() ? a : b);
            }
    }

    std::vector<std::size_t> by_height() const {
        std::vector<std::size_t> order(members_.size());
        std::iota(order.begin(), order.end(), 0U);
        std::ranges::stable_sort(order, {}, [&](std::size_t m) { return members_[m].hubs.front().span.bottom_mm; });
        return order;
    }

    void lead_to_bearing() {
        const std::vector<std::size_t> rising = by_height();
        for (std::size_t i = 0; i < rising.size() && i <= kMostPassedHubs; ++i) {
            Sleeve& sleeve = sleeves_[rising[i]];
            const double bottom = sleeve.pieces.front().bottom_mm;
            if (bottom <= *room_.bearing_mm) continue;
            sleeve.pieces.front().bottom_mm = *room_.bearing_mm;
            sleeve.reaches_bearing = true;
            for (const std::size_t other : rising)
                if (passes(rising[i], other) && passes(other, rising[i])) sleeve.reaches_bearing = false;
            if (!sleeve.reaches_bearing) sleeve.pieces.front().bottom_mm = bottom;
        }
    }

    double length_of(std::size_t m) const {
        return sleeves_[m].pieces.back().top_mm - sleeves_[m].pieces.front().bottom_mm;
    }

    bool radii_fit() {
        std::vector<std::size_t> order(members_.size());
        std::iota(order.begin(), order.end(), 0U);
        std::ranges::stable_sort(order, std::ranges::greater{}, [&](std::size_t m) { return length_of(m); });
        const double ease = 1e-9;
        for (std::size_t i = 0; i < order.size(); ++i) {
            const std::size_t m = order[i];
            Sleeve& sleeve = sleeves_[m];
            sleeve.inner_mm = 0.0;
            for (std::size_t k = 0; k < i; ++k)
                if (passes(order[k], m))
                    sleeve.inner_mm = std::max(sleeve.inner_mm, width_in(order[k], m) + room_.clearance_mm);
            const double least = sleeve.inner_mm > 0.0 ? sleeve.inner_mm + room_.wall_mm : room_.wall_mm / 2.0;
            if (least > members_[m].most_mm + ease && sleeve.inner_mm > 0.0) {
                for (std::size_t k = 0; k < i; ++k)
                    if (passes(order[k], m)) end_above(order[k], m);
                return false;
            }
            sleeve.outer_mm = std::min(std::max(least, members_[m].wanted_mm), std::max(members_[m].most_mm, 1e-3));
        }
        return true;
    }

    // Takes a shaft out of another member's hubs.
    void end_above(std::size_t shaft, std::size_t m) {
        Sleeve& sleeve = sleeves_[shaft];
        const std::vector<Span> own = spans_of(members_[shaft].hubs);
        if (sleeve.reaches_bearing) {
            sleeve.reaches_bearing = false;
            sleeve.pieces.front().bottom_mm = own.front().bottom_mm;
            if (!passes(shaft, m)) return;
        }
        std::vector<Span> pieces{own.front()};
        for (std::size_t h = 1; h < own.size(); ++h) {
            const Span joined{pieces.back().bottom_mm, own[h].top_mm};
            const bool foreign =
                std::ranges::any_of(members_[m].hubs, [&](const Hub& hub) { return within(hub.span, joined); });
            if (foreign)
                pieces.push_back(own[h]);
            else
                pieces.back() = joined;
        }
        // A hub that lies over a foreign one leaves nothing to cut.
        sleeve.pieces = pieces == sleeve.pieces ? own : pieces;
    }

    const std::vector<HubsOnAxis>& members_;
    const SleeveRoom& room_;
    std::vector<Sleeve> sleeves_;
};

}  // namespace

std::vector<Sleeve> nest_sleeves(const std::vector<HubsOnAxis>& members, const SleeveRoom& room) {
    return Nest(members, room).run();
}

}  // namespace couplet

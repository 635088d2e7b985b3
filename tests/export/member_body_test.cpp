#include "export/member_body.hpp"

#include <gtest/gtest.h>

#include <set>

#include "export/exported.hpp"

namespace couplet {
namespace {

using Names = std::vector<std::string>;

Names names_of(const std::vector<MemberBody>& bodies) {
    Names names;
    for (const MemberBody& body : bodies) names.push_back(body.name);
    return names;
}

TEST(MemberBodies, AreOneForCopiesThatAreAlike) {
    const std::vector<MemberBody> bodies = member_bodies(exported("harbour_capstan"));
    EXPECT_EQ(names_of(bodies), (Names{"frame", "crank", "drum", "planet", "ring"}));
    EXPECT_EQ(bodies[3].places.size(), 3U);
}

TEST(MemberBodies, HoldEveryPartOfEveryPlaceOnce) {
    for (const std::string& name : shipped_names()) {
        const ExportModel model = exported(name);
        std::set<PlaceIndex> places;
        for (const MemberBody& body : member_bodies(model)) {
            ASSERT_EQ(body.places.size(), body.turned_rad.size());
            EXPECT_FALSE(body.parts.empty());
            for (const PlaceIndex place : body.places) EXPECT_TRUE(places.insert(place).second) << name;
        }
        for (const Part& part : model.machine.parts) EXPECT_TRUE(places.contains(part.place)) << name;
    }
}

// Each part of each place is where the body's own part comes to, turned as the body is there.
TEST(MemberBodies, StandAtTheirPlacesAsThePartsDo) {
    for (const std::string& name : shipped_names()) {
        const ExportModel model = exported(name);
        for (const MemberBody& body : member_bodies(model))
            for (std::size_t i = 0; i < body.places.size(); ++i) {
                std::size_t next = 0;
                for (const Part& part : model.machine.parts) {
                    if (part.place != body.places[i]) continue;
                    const Part& own = model.machine.parts[body.parts.at(next++)];
                    const double t = body.turned_rad[i];
                    EXPECT_EQ(part.shape, own.shape);
                    EXPECT_NEAR(part.offset_mm.x_mm,
                                own.offset_mm.x_mm * std::cos(t) - own.offset_mm.y_mm * std::sin(t), 1e-6);
                    EXPECT_NEAR(part.offset_mm.y_mm,
                                own.offset_mm.x_mm * std::sin(t) + own.offset_mm.y_mm * std::cos(t), 1e-6);
                    if (!std::holds_alternative<TurnedShape>(model.machine.shapes[part.shape])) {
                        EXPECT_LT(angle_between(part.turned_rad, own.turned_rad + t), 1e-9) << name;
                    }
                }
                EXPECT_EQ(next, body.parts.size());
            }
    }
}

// The carousel's tables ride in three copies, and each one's own gear starts at another angle to its plate.
TEST(MemberBodies, AreSeveralWhereCopiesDiffer) {
    const Names names = names_of(member_bodies(exported("boat_carousel")));
    for (const char* table : {"table 1", "table 2", "table 3"})
        EXPECT_NE(std::ranges::find(names, table), names.end()) << table;
}

TEST(BodyMesh, HasNoTriangleWithoutThreePoints) {
    const ExportModel model = exported("harbour_capstan");
    for (const MemberBody& body : member_bodies(model)) {
        const BodyMesh mesh = body_mesh(model.machine, body, 0.05);
        EXPECT_FALSE(mesh.triangles.empty());
        for (const auto& t : mesh.triangles) {
            EXPECT_TRUE(t[0] != t[1] && t[1] != t[2] && t[2] != t[0]);
            for (const std::uint32_t point : t) ASSERT_LT(point, mesh.points_mm.size());
        }
    }
}

}  // namespace
}  // namespace couplet

#include "export/three_mf.hpp"

#include <gtest/gtest.h>

#include <map>

// A library of C functions that brings its own types.
#include <Model/COM/NMR_DLLInterfaces.h>

#include "export/exported.hpp"
#include "export/printable.hpp"
#include "record/own_folder.hpp"
#include "solid/detail.hpp"
#include "solid/solid_measure.hpp"

namespace couplet {
namespace {

struct ReadObject {
    std::string name;
    bool is_sound = false;  // manifold and oriented
    double volume_mm3 = 0.0;
    std::array<double, 3> least{1e9, 1e9, 1e9};
    std::array<double, 3> most{-1e9, -1e9, -1e9};
};

struct ReadItem {
    DWORD object = 0;
    std::array<double, 3> shift{};
};

// A file as lib3mf, the format's own library, reads it.
class Reading {
  public:
    explicit Reading(const std::filesystem::path& file) {
        NMR::PLib3MFModelReader* reader = nullptr;
        EXPECT_EQ(NMR::lib3mf_createmodel(&model_), 0);
        EXPECT_EQ(NMR::lib3mf_model_queryreader(model_, "3mf", &reader), 0);
        EXPECT_EQ(NMR::lib3mf_reader_setstrictmodeactive(reader, true), 0);
        EXPECT_EQ(NMR::lib3mf_reader_readfromfileutf8(reader, file.c_str()), 0) << "lib3mf cannot read it";
        EXPECT_EQ(NMR::lib3mf_reader_getwarningcount(reader, &warnings), 0);
        NMR::lib3mf_release(reader);
        EXPECT_EQ(NMR::lib3mf_model_getunit(model_, &unit), 0);
        read_objects();
        read_items();
    }
    ~Reading() { NMR::lib3mf_release(model_); }
    Reading(const Reading&) = delete;
    Reading& operator=(const Reading&) = delete;

    DWORD warnings = 1;
    DWORD unit = 0;
    std::map<DWORD, ReadObject> objects;
    std::vector<ReadItem> items;

    [[nodiscard]] const ReadObject& named(const std::string& name) const {
        return std::ranges::find_if(objects, [&](const auto& entry) { return entry.second.name == name; })->second;
    }

  private:
    void read_objects() {
        NMR::PLib3MFModelResourceIterator* iterator = nullptr;
        EXPECT_EQ(NMR::lib3mf_model_getmeshobjects(model_, &iterator), 0);
        for (BOOL more = 0; NMR::lib3mf_resourceiterator_movenext(iterator, &more) == 0 && more != 0;) {
            NMR::PLib3MFModelResource* resource = nullptr;
            EXPECT_EQ(NMR::lib3mf_resourceiterator_getcurrent(iterator, &resource), 0);
            DWORD id = 0;
            EXPECT_EQ(NMR::lib3mf_resource_getresourceid(resource, &id), 0);
            objects[id] = object_of(resource);
            NMR::lib3mf_release(resource);
        }
        NMR::lib3mf_release(iterator);
    }
    static ReadObject object_of(NMR::PLib3MFModelMeshObject* mesh) {
        ReadObject object;
        std::array<char, 200> name{};
        ULONG needed = 0;
        EXPECT_EQ(NMR::lib3mf_object_getnameutf8(mesh, name.data(), name.size(), &needed), 0);
        object.name = name.data();
        BOOL sound = 0;
        EXPECT_EQ(NMR::lib3mf_meshobject_ismanifoldandoriented(mesh, &sound), 0);
        object.is_sound = sound != 0;
        DWORD triangles = 0;
        EXPECT_EQ(NMR::lib3mf_meshobject_gettrianglecount(mesh, &triangles), 0);
        for (DWORD t = 0; t < triangles; ++t) {
            NMR::MODELMESHTRIANGLE triangle;
            EXPECT_EQ(NMR::lib3mf_meshobject_gettriangle(mesh, t, &triangle), 0);
            Triangle3 corners{};
            for (std::size_t k = 0; k < 3; ++k) {
                NMR::MODELMESHVERTEX vertex;
                EXPECT_EQ(NMR::lib3mf_meshobject_getvertex(mesh, triangle.m_nIndices[k], &vertex), 0);
                for (std::size_t c = 0; c < 3; ++c) {
                    corners[k][c] = static_cast<double>(vertex.m_fPosition[c]);
                    object.least[c] = std::min(object.least[c], corners[k][c]);
                    object.most[c] = std::max(object.most[c], corners[k][c]);
                }
            }
            object.volume_mm3 += dot3(corners[0], winding_of(corners)) / 6.0;
        }
        return object;
    }
    void read_items() {
        NMR::PLib3MFModelBuildItemIterator* iterator = nullptr;
        EXPECT_EQ(NMR::lib3mf_model_getbuilditems(model_, &iterator), 0);
        for (BOOL more = 0; NMR::lib3mf_builditemiterator_movenext(iterator, &more) == 0 && more != 0;) {
            NMR::PLib3MFModelBuildItem* item = nullptr;
            NMR::PLib3MFModelObjectResource* object = nullptr;
            NMR::MODELTRANSFORM transform;
            ReadItem read;
            EXPECT_EQ(NMR::lib3mf_builditemiterator_getcurrent(iterator, &item), 0);
            EXPECT_EQ(NMR::lib3mf_builditem_getobjectresource(item, &object), 0);
            EXPECT_EQ(NMR::lib3mf_resource_getresourceid(object, &read.object), 0);
            EXPECT_EQ(NMR::lib3mf_builditem_getobjecttransform(item, &transform), 0);
            for (std::size_t c = 0; c < 3; ++c) read.shift[c] = static_cast<double>(transform.m_fFields[c][3]);
            items.push_back(read);
            NMR::lib3mf_release(object);
            NMR::lib3mf_release(item);
        }
        NMR::lib3mf_release(iterator);
    }

    NMR::PLib3MFModel* model_ = nullptr;
};

class ThreeMf : public OwnFolder {
  protected:
    std::string packed(const ExportModel& model, double clearance_mm) {
        ExportModel printed = model;
        printed.machine = printable(model, clearance_mm);
        bodies_ = member_bodies(printed);
        machine_ = printed.machine;
        return three_mf_of(printed, printed.machine, bodies_, {0.05});
    }
    std::filesystem::path file(const ExportModel& model, double clearance_mm = 0.15) {
        write("train.3mf", packed(model, clearance_mm));
        return in_folder("train.3mf");
    }

    std::vector<MemberBody> bodies_;
    Machine machine_;
};

TEST_F(ThreeMf, HoldsEachMemberOnceAndEachCopyAsAnItem) {
    const Reading reading(file(exported("harbour_capstan")));
    EXPECT_EQ(reading.warnings, 0U);
    EXPECT_EQ(reading.unit, static_cast<DWORD>(NMR::MODELUNIT_MILLIMETER));
    Names names;
    for (const auto& [id, object] : reading.objects) names.push_back(object.name);
    EXPECT_EQ(names, (Names{"frame", "crank", "drum", "planet", "ring"}));
    EXPECT_EQ(reading.items.size(), 7U);  // the planet three times
}

TEST_F(ThreeMf, IsSoundAndHoldsAllMetalForEveryShippedScene) {
    for (const std::string& name : shipped_names()) {
        const Reading reading(file(exported(name)));
        EXPECT_EQ(reading.warnings, 0U) << name;
        ASSERT_EQ(reading.objects.size(), bodies_.size()) << name;
        std::size_t b = 0;
        for (const auto& [id, object] : reading.objects) {
            double wanted = 0.0;
            for (const std::size_t p : bodies_[b++].parts)
                wanted +=
                    volume_mm3(solid_of(with_detail(machine_.shapes[machine_.parts[p].shape], Detail::unmarked), 0.05));
            EXPECT_TRUE(object.is_sound) << name << ", " << object.name;
            EXPECT_NEAR(object.volume_mm3, wanted, 1e-4 * wanted) << name << ", " << object.name;
        }
    }
}

TEST_F(ThreeMf, LaysAllItemsOnTheBedApartFromEachOther) {
    const Reading reading(file(exported("boat_carousel")));
    struct Box {
        double left, right, front, back;
    };
    std::vector<Box> boxes;
    for (const ReadItem& item : reading.items) {
        const ReadObject& object = reading.objects.at(item.object);
        EXPECT_NEAR(object.least[2] + item.shift[2], 0.0, 1e-3) << object.name;
        boxes.push_back({object.least[0] + item.shift[0], object.most[0] + item.shift[0],
                         object.least[1] + item.shift[1], object.most[1] + item.shift[1]});
        EXPECT_GT(boxes.back().left, 0.0);
        EXPECT_GT(boxes.back().front, 0.0);
    }
    for (std::size_t a = 0; a < boxes.size(); ++a)
        for (std::size_t b = 0; b < a; ++b)
            EXPECT_TRUE(boxes[a].right < boxes[b].left || boxes[b].right < boxes[a].left ||
                        boxes[a].back < boxes[b].front || boxes[b].back < boxes[a].front)
                << a << " lies on " << b;
}

TEST_F(ThreeMf, KeepsNamesThatXmlWouldTakeForItsOwn) {
    Train train = shipped_train("harbour_capstan");
    train.title = "Tom & \"Jerry\" <1>";
    train.members[0].name = "a<b & \"c\"";
    const Reading reading(file(export_model_of(train, train.settings.front())));
    EXPECT_EQ(reading.objects.size(), 5U);
    EXPECT_FALSE(reading.named("a<b & \"c\"").name.empty());
}

TEST_F(ThreeMf, IsTheSameEveryTime) {
    const ExportModel model = exported("signal_arm");
    EXPECT_TRUE(packed(model, 0.1) == packed(model, 0.1));
}

}  // namespace
}  // namespace couplet

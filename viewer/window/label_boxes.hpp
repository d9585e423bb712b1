#pragma once
/// Places for the labels of regions over a picture.

#include <QRectF>
#include <vector>

namespace tintfall::viewer {

/// What is to be labelled: the box round the region, and the size of its label, widget px.
struct LabelWanted {
  QRectF region;
  QSizeF size;
};

/// A box for each label, in their order: beside its region, clear of the labels before it and, as far as
/// there is room, of every region and inside `view`. A label of a region that lies outside `view` stays with
/// it.
std::vector<QRectF> label_boxes(const std::vector<LabelWanted>& wanted, const QRectF& view);

}  // namespace tintfall::viewer

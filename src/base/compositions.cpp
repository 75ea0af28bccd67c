// SPDX-License-Identifier: MIT
//
// Letters with marks as single characters. Source: UnicodeData.txt 14.0: the canonical
// decompositions into two characters of U+00C0 to U+024F, U+0386 to U+03CE, U+0400 to U+04FF and
// U+1E00 to U+1FFF, without those that are never composed.
#include <algorithm>
#include <string_view>

#include "base/letters.h"

namespace loopledger {
namespace {

struct OfMark {
  char32_t mark;
  std::u32string_view pairs;  ///< letter, letter with the mark, letter, …
};

constexpr OfMark kCompositions[] = {
    {0x0300,
     U"AÀEÈIÌOÒUÙaàeèiìoòuùÜǛüǜNǸnǹЕЀИЍеѐиѝĒḔēḕŌṐōṑWẀwẁÂẦâầĂẰăằÊỀêềÔỒôồƠỜơờƯỪưừ"
     U"YỲyỳἀἂἁἃἈἊἉἋἐἒἑἓἘἚἙἛἠἢἡἣἨἪἩἫἰἲἱἳἸἺἹἻὀὂὁὃὈὊὉὋὐὒὑὓὙὛὠὢὡὣὨὪὩὫαὰεὲηὴιὶοὸυὺωὼ"
     U"ΑᾺΕῈΗῊ᾿῍ϊῒΙῚ῾῝ϋῢΥῪ¨῭ΟῸΩῺ"},
    {0x0301,
     U"AÁEÉIÍOÓUÚYÝaáeéiíoóuúyýCĆcćLĹlĺNŃnńRŔrŕSŚsśZŹzźÜǗüǘGǴgǵÅǺåǻÆǼæǽØǾøǿΑΆΕΈ"
     U"ΗΉΙΊΟΌΥΎΩΏϊΐαάεέηήιίϋΰοόυύωώГЃКЌгѓкќÇḈçḉĒḖēḗÏḮïḯKḰkḱMḾmḿÕṌõṍŌṒōṓPṔpṕŨṸũṹ"
     U"WẂwẃÂẤâấĂẮăắÊẾêếÔỐôốƠỚơớƯỨưứἀἄἁἅἈἌἉἍἐἔἑἕἘἜἙἝἠἤἡἥἨἬἩἭἰἴἱἵἸἼἹἽὀὄὁὅὈὌὉὍὐὔὑὕ"
     U"ὙὝὠὤὡὥὨὬὩὭ᾿῎῾῞"},
    {0x0302, U"AÂEÊIÎOÔUÛaâeêiîoôuûCĈcĉGĜgĝHĤhĥJĴjĵSŜsŝWŴwŵYŶyŷZẐzẑẠẬạậẸỆẹệỌỘọộ"},
    {0x0303, U"AÃNÑOÕaãnñoõIĨiĩUŨuũVṼvṽÂẪâẫĂẴăẵEẼeẽÊỄêễÔỖôỗƠỠơỡƯỮưữYỸyỹ"},
    {0x0304,
     U"AĀaāEĒeēIĪiīOŌoōUŪuūÜǕüǖÄǞäǟȦǠȧǡÆǢæǣǪǬǫǭÖȪöȫÕȬõȭȮȰȯȱYȲyȳИӢиӣУӮуӯGḠgḡḶḸḷḹ"
     U"ṚṜṛṝαᾱΑᾹιῑΙῙυῡΥῩ"},
    {0x0306, U"AĂaăEĔeĕGĞgğIĬiĭOŎoŏUŬuŭУЎИЙийуўЖӁжӂАӐаӑЕӖеӗȨḜȩḝẠẶạặαᾰΑᾸιῐΙῘυῠΥῨ"},
    {0x0307,
     U"CĊcċEĖeėGĠgġIİZŻzżAȦaȧOȮoȯBḂbḃDḊdḋFḞfḟHḢhḣMṀmṁNṄnṅPṖpṗRṘrṙSṠsṡŚṤśṥŠṦšṧṢṨ"
     U"ṣṩTṪtṫWẆwẇXẊxẋYẎyẏſẛ"},
    {0x0308,
     U"AÄEËIÏOÖUÜaäeëiïoöuüyÿYŸΙΪΥΫιϊυϋЕЁІЇеёіїАӒаӓӘӚәӛЖӜжӝЗӞзӟИӤиӥОӦоӧӨӪөӫЭӬэӭ"
     U"УӰуӱЧӴчӵЫӸыӹHḦhḧÕṎõṏŪṺūṻWẄwẅXẌxẍtẗ"},
    {0x0309, U"AẢaảÂẨâẩĂẲăẳEẺeẻÊỂêểIỈiỉOỎoỏÔỔôổƠỞơởUỦuủƯỬưửYỶyỷ"},
    {0x030A, U"AÅaåUŮuůwẘyẙ"},
    {0x030B, U"OŐoőUŰuűУӲуӳ"},
    {0x030C,
     U"CČcčDĎdďEĚeěLĽlľNŇnňRŘrřSŠsšTŤtťZŽzžAǍaǎIǏiǐOǑoǒUǓuǔÜǙüǚGǦgǧKǨkǩƷǮʒǯjǰHȞ"
     U"hȟ"},
    {0x030F, U"AȀaȁEȄeȅIȈiȉOȌoȍRȐrȑUȔuȕѴѶѵѷ"},
    {0x0311, U"AȂaȃEȆeȇIȊiȋOȎoȏRȒrȓUȖuȗ"},
    {0x0313, U"αἀΑἈεἐΕἘηἠΗἨιἰΙἸοὀΟὈυὐωὠΩὨρῤ"},
    {0x0314, U"αἁΑἉεἑΕἙηἡΗἩιἱΙἹοὁΟὉυὑΥὙωὡΩὩρῥΡῬ"},
    {0x031B, U"OƠoơUƯuư"},
    {0x0323,
     U"BḄbḅDḌdḍHḤhḥKḲkḳLḶlḷMṂmṃNṆnṇRṚrṛSṢsṣTṬtṭVṾvṿWẈwẉZẒzẓAẠaạEẸeẹIỊiịOỌoọƠỢơợ"
     U"UỤuụƯỰưựYỴyỵ"},
    {0x0324, U"UṲuṳ"},
    {0x0325, U"AḀaḁ"},
    {0x0326, U"SȘsșTȚtț"},
    {0x0327, U"CÇcçGĢgģKĶkķLĻlļNŅnņRŖrŗSŞsşTŢtţEȨeȩDḐdḑHḨhḩ"},
    {0x0328, U"AĄaąEĘeęIĮiįUŲuųOǪoǫ"},
    {0x032D, U"DḒdḓEḘeḙLḼlḽNṊnṋTṰtṱUṶuṷ"},
    {0x032E, U"HḪhḫ"},
    {0x0330, U"EḚeḛIḬiḭUṴuṵ"},
    {0x0331, U"BḆbḇDḎdḏKḴkḵLḺlḻNṈnṉRṞrṟTṮtṯZẔzẕhẖ"},
    {0x0342, U"ἀἆἁἇἈἎἉἏἠἦἡἧἨἮἩἯἰἶἱἷἸἾἹἿὐὖὑὗὙὟὠὦὡὧὨὮὩὯαᾶ¨῁ηῆ᾿῏ιῖϊῗ῾῟υῦϋῧωῶ"},
    {0x0345,
     U"ἀᾀἁᾁἂᾂἃᾃἄᾄἅᾅἆᾆἇᾇἈᾈἉᾉἊᾊἋᾋἌᾌἍᾍἎᾎἏᾏἠᾐἡᾑἢᾒἣᾓἤᾔἥᾕἦᾖἧᾗἨᾘἩᾙἪᾚἫᾛἬᾜἭᾝἮᾞἯᾟὠᾠὡᾡὢᾢὣᾣ"
     U"ὤᾤὥᾥὦᾦὧᾧὨᾨὩᾩὪᾪὫᾫὬᾬὭᾭὮᾮὯᾯὰᾲαᾳάᾴᾶᾷΑᾼὴῂηῃήῄῆῇΗῌὼῲωῳώῴῶῷΩῼ"},
};

}  // namespace

char32_t composed(char32_t letter, char32_t mark) {
  for (const OfMark& row : kCompositions) {
    for (std::size_t i = 0; row.mark == mark && i + 1 < row.pairs.size(); i += 2) {
      if (row.pairs[i] == letter) {
        return row.pairs[i + 1];
      }
    }
  }
  return 0;
}

char32_t without_mark(char32_t c) {
  for (const OfMark& row : kCompositions) {
    for (std::size_t i = 1; i < row.pairs.size(); i += 2) {
      if (row.pairs[i] == c) {
        return row.pairs[i - 1];
      }
    }
  }
  return 0;
}

}  // namespace loopledger
